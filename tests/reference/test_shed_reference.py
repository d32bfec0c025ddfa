"""The shed plugin against published figures and reference libraries."""

from __future__ import annotations

import math
from datetime import date, timedelta

import numpy as np
import pytest
from lifelines import LogNormalFitter
from scipy import integrate, stats
from scipy.stats.contingency import odds_ratio

from warmside.plugins.shed.censored import most_likely
from warmside.plugins.shed.cycle import Seen, Stage, read
from warmside.plugins.shed.exact import Counts, fisher, odds_interval, wilson
from warmside.plugins.shed.forecast import forecast
from warmside.plugins.shed.intervals import Interval, between, exactly
from warmside.plugins.shed.now import where
from warmside.plugins.shed.predictive import Belief, Summary, before, prior_for, updated
from warmside.plugins.shed.student_t import cdf, log_upper_quantile, log_upper_tail, quantile
from warmside.plugins.shed.trend import Driver
from warmside.plugins.shed.windows import window

DAYS = [7, 8, 7, 9, 14, 7, 10, 8, 7, 12]
OTHER = [34, 41, 38, 40]


@pytest.mark.parametrize("df", [1, 1.5, 2, 3, 5, 9, 14, 29.5, 100, 1000])
@pytest.mark.parametrize("t", [-40, -3.2, -1, -1e-3, 0, 0.2, 1, 2.5, 12, 300])
def test_t_cdf_agrees_with_scipy(t: float, df: float) -> None:
    """Source: SciPy, scipy.stats.t.cdf. Mark: published (open library)."""
    assert cdf(t, df) == pytest.approx(stats.t.cdf(t, df), rel=1e-10, abs=1e-300)


@pytest.mark.parametrize("df", [1, 1.5, 2, 3, 5, 9, 14, 29.5, 100, 1000])
@pytest.mark.parametrize("p", [1e-12, 1e-4, 0.05, 0.25, 0.4999, 0.5, 0.75, 0.95, 0.999])
def test_t_quantile_agrees_with_scipy(p: float, df: float) -> None:
    """Source: SciPy, scipy.stats.t.ppf. Mark: published (open library)."""
    assert quantile(p, df) == pytest.approx(stats.t.ppf(p, df), rel=1e-9, abs=1e-12)


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
    found = [quantile(p, df) for p in (0.75, 0.90, 0.95, 0.975, 0.995)]
    assert found == pytest.approx(row, rel=1e-9)


def test_far_tails_go_there_and_back() -> None:
    """Source: SciPy, scipy.stats.t.logsf and isf at log chances that a float can hold."""
    assert log_upper_tail(30, 299) == pytest.approx(stats.t.logsf(30, 299), rel=1e-9)
    for log_p in (-1e-6, -0.7, -50, -900, -5000):
        assert log_upper_tail(log_upper_quantile(log_p, 299), 299) == pytest.approx(log_p, rel=1e-9)


def test_plain_predictive_gives_the_published_rows() -> None:
    """Source: R predict(lm(log(x) ~ 1), interval="prediction") and SciPy t.interval, run once.

    Mark: published (open libraries).
    """
    f = forecast(exactly(DAYS))
    assert (f.low_50_days, f.high_50_days) == pytest.approx((7.19898676, 10.37417118), rel=1e-8)
    assert (f.low_90_days, f.high_90_days) == pytest.approx((5.36592162, 13.91811629), rel=1e-8)
    assert f.median_days == pytest.approx(8.641962800, rel=1e-9)
    assert forecast(exactly(DAYS), 14).chance_longer == pytest.approx(0.048237655, rel=1e-7)
    assert forecast(exactly(DAYS), 20).chance_longer == pytest.approx(0.005180867, rel=1e-6)


@pytest.mark.parametrize(
    ("count", "low", "high"),
    [
        (2, 3.605800, 15.530534),
        (3, 5.643367, 9.491156),
        (4, 5.604718, 10.597674),
        (5, 4.444763, 16.967350),
    ],
)
def test_plain_predictive_of_the_first_few(count: int, low: float, high: float) -> None:
    """Source: R predict(lm(log(x) ~ 1)), run once. Mark: published (open library)."""
    f = forecast(exactly(DAYS[:count]))
    assert (f.low_90_days, f.high_90_days) == pytest.approx((low, high), rel=2e-7)


@pytest.mark.parametrize("elapsed", [0, 20, 39, 60])
def test_plain_predictive_conditioned_agrees_with_scipy(elapsed: float) -> None:
    """Source: SciPy's Student t, truncated by its survival function. Mark: published."""
    logs = np.log(OTHER)
    n = len(logs)
    t = stats.t(n - 1, logs.mean(), logs.std(ddof=1) * math.sqrt(1 + 1 / n))
    left = t.sf(math.log(elapsed)) if elapsed else 1.0
    f = forecast(exactly(OTHER), elapsed)
    found = (f.low_90_days, f.low_50_days, f.median_days, f.high_50_days, f.high_90_days)
    wanted = [math.exp(t.isf(c * left)) for c in (0.95, 0.75, 0.5, 0.25, 0.05)]
    assert found == pytest.approx(wanted, rel=1e-9)


def test_conditional_chance_of_the_published_row() -> None:
    """P(X > 21 | X > 14) = .079654573. Source: SciPy, run once. Mark: published."""
    longer = [forecast(exactly(DAYS), d).chance_longer for d in (21, 14)]
    assert longer[0] / longer[1] == pytest.approx(0.079654573, rel=1e-7)


def test_normal_inverse_gamma_row() -> None:
    """m0 = ln 8, k0 = 2, a0 = 2, b0 = .1. Source: Gelman et al., BDA 3.3, and Monte Carlo 2e6.

    Mark: published (formula), computed (row).
    """
    logs = np.log(DAYS)
    seen = Summary(10, float(logs.mean()), float(((logs - logs.mean()) ** 2).sum()))
    after = updated(Belief(math.log(8), 2, 2, 0.1), seen)
    ahead = after.predictive()
    assert after.weight == 12
    assert after.mean == pytest.approx(2.1437650344, rel=1e-9)
    assert after.shape == 7
    assert after.rate == pytest.approx(0.3814550313, rel=1e-9)
    assert ahead.scale == pytest.approx(0.2429705892, rel=1e-9)
    assert ahead.df == 14
    low, high = (ahead.days_exceeded_with(math.log(c)) for c in (0.95, 0.05))
    assert (low, high) == pytest.approx((5.56122536, 13.08820700), rel=1e-8)


@pytest.mark.parametrize("elapsed", [0.0, 45.0])
def test_predictive_with_prior_agrees_with_a_numerical_integral(elapsed: float) -> None:
    """The chance of a shed within the 90 % range, by integrating over mean and variance.

    The log-normal chance is averaged over prior times likelihood with SciPy's quadrature; no
    Student t and no conjugate formula enters. Source: Bayes' rule, SciPy. Mark: published.
    """
    prior = prior_for("adult")
    logs = np.log(OTHER)
    f = forecast(exactly(OTHER), elapsed, prior)

    def average(chance: object) -> float:
        def over_mean(log_sd: float) -> float:
            sd = math.exp(log_sd)
            weight = stats.invgamma.pdf(sd**2, prior.shape, scale=prior.rate) * 2 * sd**2
            centre = logs.mean()
            grid = np.linspace(centre - 1.2, centre + 1.2, 1201)
            dense = stats.norm.pdf(grid, prior.mean_log, sd / math.sqrt(prior.weight))
            for value in logs:
                dense = dense * stats.norm.pdf(value, grid, sd)
            return float(weight * integrate.simpson(dense * chance(grid, sd), x=grid))  # type: ignore[operator]

        return float(integrate.quad(over_mean, -4.5, 1.5, epsrel=1e-7, limit=200)[0])

    def longer(days: float) -> float:
        return average(lambda mean, sd: stats.norm.sf(math.log(days), mean, sd))

    everything = longer(elapsed) if elapsed else average(lambda mean, sd: 1.0)
    assert longer(f.low_90_days) / everything == pytest.approx(0.95, abs=2e-4)
    assert longer(f.high_50_days) / everything == pytest.approx(0.25, abs=2e-4)
    assert longer(f.high_90_days) / everything == pytest.approx(0.05, abs=2e-4)


RIGHT = (28, 31, 35, 30, 42, 29, 38, 33, 27, 45, 21, 16)


def test_right_censored_fit_agrees_with_lifelines_and_r() -> None:
    """Source: lifelines LogNormalFitter, run here; R survreg 3.50656252, .16524944, run once.

    Mark: published (open libraries).
    """
    seen: list[Interval] = [*exactly(RIGHT[:10]), *(between(t, math.inf) for t in RIGHT[10:])]
    mean, sd = most_likely(seen, before(None))
    fitted = LogNormalFitter().fit(RIGHT, [1] * 10 + [0] * 2)
    assert (mean, sd) == pytest.approx((fitted.mu_, fitted.sigma_), rel=1e-5)
    assert (mean, sd) == pytest.approx((3.50656252, 0.16524944), rel=1e-7)


def test_interval_censored_fit_agrees_with_lifelines_and_r() -> None:
    """Source: lifelines fit_interval_censoring, run here; R survreg interval2, run once.

    Mark: published (open libraries).
    """
    low, high = [25, 28, 30, 33, 26], [27, 28, 34, 35, math.inf]
    seen = [between(a, b) for a, b in zip(low, high, strict=True)]
    mean, sd = most_likely(seen, before(None))
    fitted = LogNormalFitter().fit_interval_censoring(low, high)
    assert (mean, sd) == pytest.approx((fitted.mu_, fitted.sigma_), rel=2e-4)
    assert (mean, sd) == pytest.approx((3.39778263, 0.10087034), rel=1e-7)


def test_trend_agrees_with_regression_and_its_prediction_interval() -> None:
    """Source: SciPy linregress, and the prediction interval of ordinary regression.

    Mark: published (any textbook of regression; open library).
    """
    days, age = [20, 23, 22, 26, 29, 27, 32, 36, 35, 42], np.arange(10.0)
    f = forecast(exactly(days), 0, None, [Driver("age", tuple(age), 10.5)])
    fit = stats.linregress(age, np.log(days))
    assert f.trend is not None
    assert f.trend.slope == pytest.approx(fit.slope, rel=1e-10)
    assert f.trend.p_value == pytest.approx(fit.pvalue, rel=1e-7)
    left = np.log(days) - fit.intercept - fit.slope * age
    s = math.sqrt((left**2).sum() / 8)
    reach = math.sqrt(1 + 1 / 10 + (10.5 - age.mean()) ** 2 / ((age - age.mean()) ** 2).sum())
    wanted = np.exp(fit.intercept + fit.slope * 10.5 + stats.t.ppf([0.05, 0.95], 8) * s * reach)
    assert (f.low_90_days, f.high_90_days) == pytest.approx(tuple(wanted), rel=1e-9)


TABLES = [(9, 3, 1, 14), (8, 2, 1, 5), (0, 6, 4, 4), (3, 3, 3, 3), (1, 20, 12, 9), (5, 0, 0, 5)]


@pytest.mark.parametrize("cells", TABLES)
def test_fisher_agrees_with_scipy(cells: tuple[int, int, int, int]) -> None:
    """Source: SciPy fisher_exact. Mark: published (open library)."""
    a, b, c, d = cells
    assert fisher(Counts(*cells)) == pytest.approx(
        stats.fisher_exact([[a, b], [c, d]]).pvalue, rel=1e-10
    )


def test_fisher_on_the_tea_tasting() -> None:
    """Source: Fisher 1935, The Design of Experiments: 3 of 4 cups right, two-sided p 34/70.

    Mark: from memory (the table and its exact p are arithmetic).
    """
    assert fisher(Counts(3, 1, 1, 3)) == pytest.approx(34 / 70)


@pytest.mark.parametrize("cells", TABLES)
def test_odds_interval_agrees_with_scipy(cells: tuple[int, int, int, int]) -> None:
    """Source: SciPy odds_ratio(kind="conditional"), 95 %. Mark: published (open library)."""
    a, b, c, d = cells
    wanted = odds_ratio([[a, b], [c, d]], kind="conditional").confidence_interval(0.95)
    low, high = odds_interval(Counts(*cells))
    assert low == pytest.approx(wanted.low, rel=1e-6)
    assert high == pytest.approx(wanted.high, rel=1e-6)


@pytest.mark.parametrize(("bad", "total"), [(0, 5), (1, 15), (9, 12), (7, 7), (40, 100)])
def test_wilson_agrees_with_scipy(bad: int, total: int) -> None:
    """Source: SciPy binomtest.proportion_ci(method="wilson"). Mark: published (open library)."""
    wanted = stats.binomtest(bad, total).proportion_ci(method="wilson")
    assert wilson(bad, total) == pytest.approx((wanted.low, wanted.high), rel=1e-9, abs=1e-12)


@pytest.mark.parametrize("first", [Stage.DULL, Stage.OPAQUE])
def test_the_visible_phase_of_five_days_lies_in_the_windows(first: Stage) -> None:
    """Day 1 spectacle obvious, days 2 to 3 translucent, day 4 clear, day 5 shed (five snakes).

    Source: Vet Ophthalmol 2015, doi 10.1111/vop.12174, abstract. Mark: published.
    """
    day_1 = date(2025, 6, 1)
    day_4, day_5 = day_1 + timedelta(days=3), day_1 + timedelta(days=4)
    shed = where(read([Seen(day_1, first)], day_1)).shed
    assert shed is not None
    assert shed.low <= day_5 <= shed.high
    clear = where(read([Seen(day_1, Stage.OPAQUE)], day_1)).next_stage
    assert clear is not None
    assert clear.low <= day_4 <= clear.high
    after_clear = where(read([Seen(day_1, Stage.OPAQUE), Seen(day_4, Stage.CLEAR)], day_4)).shed
    assert after_clear is not None
    assert after_clear.low <= day_5 <= after_clear.high


def test_the_visible_cycle_of_custom_lies_within_one_cycle() -> None:
    """A visible cycle of 7 to 14 days. Mark: common practice, no source."""
    assert window("dull to shed").high_days == 14
    assert window("one cycle").high_days > 14


def test_the_adult_prior_holds_the_published_interval_of_wild_snakes() -> None:
    """Sloughs at intervals of six weeks or two months, in British snakes in the season.

    Source: Leighton 1901, The Zoologist (4) 5:301-304. Mark: published.
    """
    f = forecast((), 0, prior_for("adult"))
    assert f.low_50_days < 42
    assert f.high_50_days > 61
