"""The Wilson score interval of a share in a sample (Wilson 1927 J Am Stat Assoc 22:209-212)."""

from __future__ import annotations

import math

from warmside.api import BadInput
from warmside.plugins.quarantine.freedom import Range, check_target, whole


def wilson_interval(cases: int, sampled: int, confidence: float = 0.95) -> Range:
    """The interval for `cases` of `sampled`; raises BadInput for none sampled or too many cases."""
    from statistics import NormalDist  # late: it loads fractions and decimal

    whole("sampled", sampled, least=1)
    if whole("cases", cases) > sampled:
        raise BadInput(f"cases is {cases}, more than the {sampled} sampled")
    check_target(confidence)
    z = NormalDist().inv_cdf(0.5 + confidence / 2)
    share, spread = cases / sampled, z * z / sampled
    middle = (share + spread / 2) / (1 + spread)
    half = math.sqrt(share * (1 - share) * spread + spread * spread / 4) / (1 + spread)
    low = 0.0 if cases == 0 else middle - half
    return Range(low, 1.0 if cases == sampled else middle + half)
