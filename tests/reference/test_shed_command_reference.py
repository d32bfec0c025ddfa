"""The forecast that the command prints, against SciPy."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from scipy import stats

from warmside.testing import new_keeper


def conditional_ends(days: list[float], elapsed: float) -> list[float]:
    """The 5, 25, 75 and 95 % points of the log-normal predictive beyond the elapsed days."""
    logs = np.log(days)
    n = len(logs)
    ahead = stats.t(n - 1, logs.mean(), logs.std(ddof=1) * np.sqrt(1 + 1 / n))
    gone = ahead.cdf(np.log(elapsed)) if elapsed else 0.0
    return [float(np.exp(ahead.ppf(gone + p * (1 - gone)))) for p in (0.05, 0.25, 0.75, 0.95)]


@pytest.mark.parametrize("elapsed", [0, 20, 39, 45])
def test_the_what_if_without_prior_agrees_with_scipy(tmp_path: Path, elapsed: int) -> None:
    """exp(m ± t s √(1 + 1/n)), conditioned on the elapsed days.

    Source: SciPy, scipy.stats.t. Mark: published (open library).
    """
    keeper = new_keeper(tmp_path, plugins=["shed"])
    arguments = "--intervals", "34,41,38,40", "--elapsed", str(elapsed), "--no-prior"
    found = keeper.json("shed", "forecast", *arguments)
    keys = "low_90_days", "low_50_days", "high_50_days", "high_90_days"
    expected = conditional_ends([34, 41, 38, 40], elapsed)
    assert [found[k] for k in keys] == pytest.approx(expected, rel=1e-6)
