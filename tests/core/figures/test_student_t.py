"""Student's t against SciPy and the printed table."""

from __future__ import annotations

import pytest
from scipy import stats

from warmside.core.figures.student_t import log_t_quantile, log_t_tail, t_cdf, t_quantile


@pytest.mark.parametrize("df", [1, 1.5, 2, 3, 5, 9, 14, 29.5, 100, 1000])
@pytest.mark.parametrize("t", [-40, -3.2, -1, -1e-3, 0, 0.2, 1, 2.5, 12, 300])
def test_t_cdf_agrees_with_scipy(t: float, df: float) -> None:
    """Source: SciPy, scipy.stats.t.cdf. Mark: published (open library)."""
    assert t_cdf(t, df) == pytest.approx(stats.t.cdf(t, df), rel=1e-10, abs=1e-300)


@pytest.mark.parametrize("df", [1, 1.5, 2, 3, 5, 9, 14, 29.5, 100, 1000])
@pytest.mark.parametrize("p", [1e-12, 1e-4, 0.05, 0.25, 0.4999, 0.5, 0.75, 0.95, 0.999])
def test_t_quantile_agrees_with_scipy(p: float, df: float) -> None:
    """Source: SciPy, scipy.stats.t.ppf. Mark: published (open library)."""
    assert t_quantile(p, df) == pytest.approx(stats.t.ppf(p, df), rel=1e-9, abs=1e-12)


@pytest.mark.parametrize(
    ("df", "row"),
    [
        (1, (1.0, 3.0776835372, 6.3137515147, 12.7062047362, 63.6567411629)),
        (2, (0.8164965809, 1.8856180832, 2.9199855804, 4.3026527297, 9.9248432009)),
        (5, (0.7266868438, 1.4758840488, 2.0150483733, 2.5705818356, 4.0321429836)),
        (9, (0.7027221468, 1.3830287384, 1.8331129327, 2.2621571628, 3.2498355416)),
        (29, (0.6830438608, 1.3114336473, 1.6991270265, 2.0452296421, 2.7563859037)),
    ],
)
def test_t_quantiles_agree_with_the_printed_table(df: int, row: tuple[float, ...]) -> None:
    """Source: the table of Student's t as computed by R's qt and SciPy. Mark: published."""
    found = [t_quantile(p, df) for p in (0.75, 0.90, 0.95, 0.975, 0.995)]
    assert found == pytest.approx(row, rel=1e-9)


def test_far_tails_go_there_and_back() -> None:
    """Source: SciPy, scipy.stats.t.logsf and isf at log chances that a float can hold."""
    assert log_t_tail(30, 299) == pytest.approx(stats.t.logsf(30, 299), rel=1e-9)
    for log_p in (-1e-6, -0.7, -50, -900, -5000):
        assert log_t_tail(log_t_quantile(log_p, 299), 299) == pytest.approx(log_p, rel=1e-9)
