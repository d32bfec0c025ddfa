"""The Wilson score interval of a share in a sample (Wilson 1927 J Am Stat Assoc 22:209-212)."""

from __future__ import annotations

import math

from warmside.core.values.errors import BadInput


def wilson_interval(cases: int, sampled: int, confidence: float = 0.95) -> tuple[float, float]:
    """The interval (shares of 1) for `cases` of `sampled`.

    Raises BadInput where none was sampled, for more cases than sampled, and for a confidence that
    is not between 0 and 1. Our own: one line of algebra, where SciPy would cost 0.3 s to import.
    """
    from statistics import NormalDist  # late: it loads fractions and decimal

    if not 0 <= cases <= sampled or sampled < 1:
        raise BadInput(f"there cannot be {cases} cases among {sampled} sampled")
    if not 0 < confidence < 1:
        raise BadInput(f"confidence is above 0 and below 1, not {confidence:g}")
    z = NormalDist().inv_cdf(0.5 + confidence / 2)
    share, spread = cases / sampled, z * z / sampled
    middle = (share + spread / 2) / (1 + spread)
    half = math.sqrt(share * (1 - share) * spread + spread * spread / 4) / (1 + spread)
    low = 0.0 if cases == 0 else middle - half
    return low, 1.0 if cases == sampled else middle + half
