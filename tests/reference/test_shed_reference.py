"""The shed plugin against published figures and reference libraries."""

from __future__ import annotations

import math
from datetime import date, timedelta
from fractions import Fraction

import numpy as np
import pytest
from scipy import integrate, stats

from warmside.plugins.shed.causes.exact import Counts, fisher, least_possible, odds_interval
from warmside.plugins.shed.cycles.cycle import Seen, Stage, read
from warmside.plugins.shed.cycles.now import where
from warmside.plugins.shed.cycles.shipped import window
from warmside.plugins.shed.forecast.censored import summary
from warmside.plugins.shed.forecast.forecast import forecast
from warmside.plugins.shed.forecast.intervals import Interval, between, exactly
from warmside.plugins.shed.forecast.predictive import Belief, Summary, before, prior_for, updated
from warmside.plugins.shed.forecast.trend import Driver

DAYS = [7, 8, 7, 9, 14, 7, 10, 8, 7, 12]
OTHER = [34, 41, 38, 40]


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


def fitted_to(seen: list[Interval]) -> tuple[float, float]:
    """Mean and standard deviation of log days without a prior: by maximum likelihood."""
    belief = updated(before(None), summary(seen, before(None)))
    return belief.mean, math.sqrt(belief.variance)


RIGHT = (28, 31, 35, 30, 42, 29, 38, 33, 27, 45, 21, 16)


def test_right_censored_fit_agrees_with_lifelines_and_r() -> None:
    """Source: lifelines LogNormalFitter, run here; R survreg 3.50656252, .16524944, run once.

    Mark: published (open libraries).
    """
    seen: list[Interval] = [*exactly(RIGHT[:10]), *(between(t, math.inf) for t in RIGHT[10:])]
    mean, sd = fitted_to(seen)
    from lifelines import LogNormalFitter  # late: 2 s, for each process that finds tests

    fitted = LogNormalFitter().fit(RIGHT, [1] * 10 + [0] * 2)
    assert (mean, sd) == pytest.approx((fitted.mu_, fitted.sigma_), rel=1e-5)
    assert (mean, sd) == pytest.approx((3.50656252, 0.16524944), rel=1e-7)


def test_interval_censored_fit_agrees_with_lifelines_and_r() -> None:
    """Source: lifelines fit_interval_censoring, run here; R survreg interval2, run once.

    Mark: published (open libraries).
    """
    low, high = [25, 28, 30, 33, 26], [27, 28, 34, 35, math.inf]
    seen = [between(a, b) for a, b in zip(low, high, strict=True)]
    mean, sd = fitted_to(seen)
    from lifelines import LogNormalFitter

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


def chances(counts: Counts, odds: Fraction = Fraction(1)) -> dict[int, Fraction]:
    """The chance of each possible first_bad, in exact fractions (Cornfield 1956, eq. 1)."""
    bad = counts.first_bad + counts.second_bad
    weights = {
        k: math.comb(counts.first, k) * math.comb(counts.second, bad - k) * odds**k
        for k in range(max(0, bad - counts.second), min(bad, counts.first) + 1)
    }
    return {k: w / sum(weights.values()) for k, w in weights.items()}


@pytest.mark.parametrize("cells", TABLES)
def test_fisher_is_the_sum_over_all_tables_no_likelier(cells: tuple[int, int, int, int]) -> None:
    """Source: Fisher 1935, by enumeration in exact fractions. Mark: published."""
    counts = Counts(*cells)
    all_tables = chances(counts)
    wanted = sum(c for c in all_tables.values() if c <= all_tables[counts.first_bad])
    assert fisher(counts) == pytest.approx(float(wanted), rel=1e-10)
    assert least_possible(counts) == pytest.approx(
        float(min(sum(c for c in all_tables.values() if c <= one) for one in all_tables.values()))
    )


def test_fisher_on_the_tea_tasting() -> None:
    """Source: Fisher 1935, The Design of Experiments: 3 of 4 cups right, two-sided p 34/70.

    Mark: from memory (the table and its exact p are arithmetic).
    """
    assert fisher(Counts(3, 1, 1, 3)) == pytest.approx(34 / 70)


@pytest.mark.parametrize("cells", TABLES)
def test_beyond_the_odds_interval_such_counts_have_a_chance_of_1_in_40(
    cells: tuple[int, int, int, int],
) -> None:
    """Source: Cornfield 1956, by enumeration in exact fractions. Mark: published."""
    counts = Counts(*cells)
    low, high = odds_interval(counts)
    at = counts.first_bad
    if low > 0:
        up = sum(c for k, c in chances(counts, Fraction(low)).items() if k >= at)
        assert float(up) == pytest.approx(0.025, rel=1e-5)
    if math.isfinite(high):
        down = sum(c for k, c in chances(counts, Fraction(high)).items() if k <= at)
        assert float(down) == pytest.approx(0.025, rel=1e-5)
    assert (low > 0) is (at > min(chances(counts)))
    assert math.isfinite(high) is (at < max(chances(counts)))


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
