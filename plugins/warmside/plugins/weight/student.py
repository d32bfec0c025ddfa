"""The two-sided 95 % point of Student's t, without SciPy.

Small samples from the exact table; from ten degrees of freedom on, the Cornish-Fisher expansion
about the normal point (Abramowitz & Stegun 26.7.5), right to six digits there.
"""

from __future__ import annotations

Z_975 = 1.959963984540054
_TABLE = (
    12.706204736, 4.302652730, 3.182446305, 2.776445105, 2.570581836,
    2.446911851, 2.364624252, 2.306004135, 2.262157163,
)  # fmt: skip


def t_975(df: int) -> float:
    """The value that Student's t with `df` degrees of freedom (1 or more) exceeds in 2.5 %."""
    if df <= len(_TABLE):
        return _TABLE[df - 1]
    z, z2 = Z_975, Z_975 * Z_975
    return z * (
        1
        + (z2 + 1) / (4 * df)
        + ((5 * z2 + 16) * z2 + 3) / (96 * df**2)
        + (((3 * z2 + 19) * z2 + 17) * z2 - 15) / (384 * df**3)
        + ((((79 * z2 + 776) * z2 + 1482) * z2 - 1920) * z2 - 945) / (92160 * df**4)
    )
