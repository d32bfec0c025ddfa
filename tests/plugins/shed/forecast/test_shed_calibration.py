"""The ranges hold what they promise: simulated histories fall inside as often as named.

The simulation is the outside of the check: it draws from the model with Python's own generators
and knows nothing of Student's t. A band without the uncertainty of mean and spread fails it.
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable

import pytest

from warmside.plugins.shed.forecast.forecast import forecast
from warmside.plugins.shed.forecast.intervals import between, exactly
from warmside.plugins.shed.forecast.predictive import Prior, prior_for

Ranges = tuple[tuple[float, float], tuple[float, float]]
HISTORIES = 2000


def drawn_animal(rng: random.Random, prior: Prior) -> tuple[float, float]:
    """Mean and standard deviation of log days of an animal as the prior believes them."""
    variance = 1 / rng.gammavariate(prior.shape, 1 / prior.rate)
    return rng.gauss(prior.mean_log, math.sqrt(variance / prior.weight)), math.sqrt(variance)


def drawn_days(rng: random.Random, animal: tuple[float, float]) -> float:
    return min(max(rng.lognormvariate(*animal), 1e-6), 3650)


def ranges(days: list[float], gone: float, prior: Prior | None) -> Ranges:
    f = forecast(exactly(days), gone, prior)
    return (f.low_50_days, f.high_50_days), (f.low_90_days, f.high_90_days)


def naive(days: list[float], gone: float, prior: Prior | None) -> Ranges:
    """The band of a keeper's calculator: mean and spread taken as if they were known."""
    logs = [math.log(d) for d in days]
    mean = sum(logs) / len(logs)
    sd = math.sqrt(sum((v - mean) ** 2 for v in logs) / (len(logs) - 1))
    fifty, ninety = 0.6744897501960817 * sd, 1.6448536269514722 * sd
    return (
        (math.exp(mean - fifty), math.exp(mean + fifty)),
        (math.exp(mean - ninety), math.exp(mean + ninety)),
    )


def coverage(
    inside: Callable[[list[float], float, Prior | None], Ranges],
    animal: Callable[[random.Random], tuple[float, float]],
    count: Callable[[random.Random], int],
    prior: Prior | None,
    latest: float = 0.0,
) -> tuple[float, float]:
    """The shares of simulated next intervals inside the 50 % and the 90 % range.

    The animal has been waiting for up to `latest` days; a shed before that is drawn again.
    """
    rng = random.Random(20250301)
    hits = [0, 0]
    done = 0
    while done < HISTORIES:
        who = animal(rng)
        days = [drawn_days(rng, who) for _ in range(count(rng))]
        gone, following = rng.uniform(0, latest), drawn_days(rng, who)
        if following <= gone:
            continue
        done += 1
        for k, (low, high) in enumerate(inside(days, gone, prior)):
            hits[k] += low <= following <= high
    return hits[0] / done, hits[1] / done


def near(share: float, nominal: float, histories: int = HISTORIES) -> bool:
    """Within 3.5 standard errors of a simulated share."""
    return abs(share - nominal) < 3.5 * math.sqrt(nominal * (1 - nominal) / histories)


@pytest.mark.parametrize("stage", ["juvenile", "adult"])
@pytest.mark.parametrize("latest", [0.0, 80.0])
def test_ranges_are_calibrated_for_animals_as_the_prior_believes(stage: str, latest: float) -> None:
    prior = prior_for(stage)
    fifty, ninety = coverage(
        ranges, lambda r: drawn_animal(r, prior), lambda r: r.randint(0, 9), prior, latest
    )
    assert near(fifty, 0.5)
    assert near(ninety, 0.9)


@pytest.mark.parametrize("sheds", [3, 6])
def test_ranges_without_prior_are_calibrated_for_any_animal(sheds: int) -> None:
    fifty, ninety = coverage(ranges, lambda r: (3.7, 0.2), lambda r: sheds, None)
    assert near(fifty, 0.5)
    assert near(ninety, 0.9)


def test_the_prior_does_not_spoil_the_ranges_of_a_usual_animal() -> None:
    """Eight intervals of an animal of 40 days with a spread of a quarter, under the adult prior."""
    prior = prior_for("adult")
    fifty, ninety = coverage(ranges, lambda r: (math.log(40), 0.25), lambda r: 8, prior)
    assert abs(fifty - 0.5) < 0.06
    assert abs(ninety - 0.9) < 0.04


def test_the_check_catches_a_band_that_takes_the_spread_as_known() -> None:
    fifty, ninety = coverage(naive, lambda r: (3.7, 0.2), lambda r: 4, None)
    assert not near(fifty, 0.5)
    assert not near(ninety, 0.9)


def test_ranges_stay_calibrated_where_every_third_interval_has_only_bounds() -> None:
    """Approximate by design, so held to 4 points of a hundred."""
    prior, rng = prior_for("adult"), random.Random(7)
    hits, histories = [0, 0], 1200
    for _ in range(histories):
        who = drawn_animal(rng, prior)
        days = [drawn_days(rng, who) for _ in range(rng.randint(3, 8))]
        loose = [between(max(d - 6, d / 2), d + 6) for d in days[::3]]
        f = forecast([*exactly(d for k, d in enumerate(days) if k % 3), *loose], 0, prior)
        following = drawn_days(rng, who)
        hits[0] += f.low_50_days <= following <= f.high_50_days
        hits[1] += f.low_90_days <= following <= f.high_90_days
    assert abs(hits[0] / histories - 0.5) < 0.04
    assert abs(hits[1] / histories - 0.9) < 0.04
