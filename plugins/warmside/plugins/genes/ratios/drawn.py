"""The multinomial test by counts drawn at random, where there are too many outcomes to add up."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

DRAWS = 200_000
SEED = 1866
"""One seed for all: the same question gets the same answer."""
AS_LIKELY = 1e-7
"""Logarithms of chances that differ by less are of outcomes exactly as likely."""


def drawn_chance(seen: Sequence[int], expected: Sequence[Fraction]) -> tuple[float, float, float]:
    """The share of drawn counts that are not likelier than those seen, and its 95 % limits.

    The limits are exact ones of a share (Clopper & Pearson 1934). Where a class is expected that
    has no share, its count in `seen` must be 0.
    """
    import numpy as np
    from scipy.special import gammaln
    from scipy.stats import binomtest

    kept = [(count, share) for count, share in zip(seen, expected, strict=True) if share]
    whole = sum(share for _, share in kept)
    shares = np.array([float(share / whole) for _, share in kept])
    counts = np.array([count for count, _ in kept])
    factorials, logs = gammaln(np.arange(counts.sum() + 1) + 1), np.log(shares)
    limit = counts @ logs - factorials[counts].sum() + AS_LIKELY
    draws = np.random.default_rng(SEED).multinomial(counts.sum(), shares / shares.sum(), DRAWS)
    odd = int((draws @ logs - factorials[draws].sum(axis=1) <= limit).sum())
    sure = binomtest(odd, DRAWS).proportion_ci(0.95)
    return odd / DRAWS, float(sure.low), float(sure.high)
