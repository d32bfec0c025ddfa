"""The bars that the findings are held to, each beside what was measured."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import isfinite

from tests.bench.alarms.counted import (
    Delay,
    a_year,
    by_code,
    coverage,
    delays,
    number_of,
    quantile,
    questions_a_year,
    rows_a_round,
)
from tests.bench.alarms.intervals import of_rate, of_share
from tests.bench.alarms.replay import Replayed

from warmside.api import Level

GROWING = ("hatchling snake", "juvenile snake", "hatchling gecko")
STEADY = ("adult snake", "adult gecko", "winter-fasting male", "cooled snake")
ANY = (Level.LOOK_SOON, Level.ACT_NOW)
WITHIN = (
    ("loses 1 % a week, eating", 11, None),
    ("loses 2 % a week, eating", 6, 9),
    ("hatchling snake stops growing", 4, None),
    ("hatchling gecko stops growing", 4, None),
    ("juvenile snake stops growing", 7, None),
    ("positive test", 1, 1),
    ("wheezing noted", 1, None),
    ("too hot", 1, 1),
)
"""Within how many weeks an ill animal is to be looked at soon, and acted on now."""
MOST = 0.9
"""A delay is held for so many of the ill animals, not for the middle one."""


@dataclass(frozen=True, slots=True)
class Bar:
    """A figure and the bounds it is to lie within."""

    name: str
    figure: float
    least: float
    most: float

    @property
    def held(self) -> bool:
        """Whether it lies within."""
        return self.least <= self.figure <= self.most

    def line(self) -> str:
        """Name, figure, what is wanted, whether it is held."""
        wanted = f"<= {self.most:g}" if not self.least else f"{self.least:g} to {self.most:g}"
        return f"{self.name:62}{self.figure:8.3f}  {wanted:13}{'held' if self.held else 'NOT HELD'}"


def lines(
    healthy: Sequence[Replayed], ill: Mapping[str, Sequence[Replayed]], sheds: Mapping[str, float]
) -> list[str]:
    """The table of bars, and what stands behind it."""
    found = [*of_healthy(healthy), *of_coverage(healthy), *of_ill(ill), *of_sheds(sheds)]
    return [
        *(bar.line() for bar in found),
        "",
        *_detail(healthy),
        "",
        *_delays(ill),
        "",
        *_in_time(ill),
    ]


def of_healthy(healthy: Sequence[Replayed]) -> Iterator[Bar]:
    """How often healthy animals are nagged about."""
    rows = sum(map(rows_a_round, healthy)) / len(healthy)
    yield Bar("healthy: finding rows a round in a collection of ten", rows, 0, 0.5)
    yield Bar("healthy: questions about a note, an animal-year", questions_a_year(healthy), 0, 1)
    soon, now = (a_year(healthy, level) for level in ANY)
    yield Bar("healthy: look soon, episodes per animal-year", _mean(soon), 0, 0.15)
    yield Bar("  the kind with the most of them", max(soon.values()), 0, 0.4)
    yield Bar("healthy: act now, episodes per animal-year", _mean(now), 0, 0.01)


def of_coverage(healthy: Sequence[Replayed]) -> Iterator[Bar]:
    """How often the 95 % range of the expected mass holds the true one."""
    for name, scenarios, last in (("growing", GROWING, 0.85), ("steady, fasting", STEADY, 0.9)):
        for ahead in (0, 30, 60):
            least, most = (last, 1.0 if last < 0.9 else 0.99) if ahead == 60 else (0.9, 0.99)
            share = coverage(healthy, scenarios, ahead)
            yield Bar(f"95 % range {ahead} days after a weighing, {name}", share, least, most)


def of_ill(ill: Mapping[str, Sequence[Replayed]]) -> Iterator[Bar]:
    """Weeks until 9 of 10 ill animals are spoken of."""
    for name, soon, now in WITHIN:
        if name in ill:
            yield _weeks(f"{name}: look soon", ill[name], soon, ANY)
            if now is not None:
                yield _weeks(f"{name}: act now", ill[name], now, (Level.ACT_NOW,))


def of_sheds(sheds: Mapping[str, float]) -> Iterator[Bar]:
    """How often the 90 % range of the next shed holds it."""
    least = {"two sheds after the rate doubled": 0.6, "one shed after the rate doubled": 0.0}
    for name, part in sheds.items():
        yield Bar(f"90 % range of the next shed, {name}", part, least.get(name, 0.85), 1.0)


def _in_time(ill: Mapping[str, Sequence[Replayed]]) -> Iterator[str]:
    """How many of the ill animals were told of in time, with the interval."""
    yield "ill: looked at soon in time (95 % interval of the share)"
    for name, soon, _ in WITHIN:
        found = _delays_of(ill.get(name, ()), *ANY)
        if found:
            count = sum(d.weeks is not None and d.weeks <= soon for d in found)
            low, high = of_share(count, len(found))
            yield f"{name:34}{count:>4} of {len(found)} in {soon} weeks ({low:.2f} to {high:.2f})"


def _weeks(name: str, done: Sequence[Replayed], most: float, levels: Sequence[Level]) -> Bar:
    weeks = [d.weeks for d in _delays_of(done, *levels)]
    return Bar(f"{name}, weeks (9 of 10 animals)", quantile(weeks, MOST), 0, most)


def _mean(found: Mapping[str, float]) -> float:
    return sum(found.values()) / len(found)


def _detail(healthy: Sequence[Replayed]) -> Iterator[str]:
    weighed = sum(d.weighed for d in healthy) / sum(len(d.lives) for d in healthy)
    asked = sum(len(d.asked_back) for d in healthy) / sum(len(d.lives) for d in healthy)
    yield f"healthy: {weighed:.1f} weighings an animal and year, {asked:.2f} of them asked back"
    for level in ANY:
        yield _how_sure(healthy, level)
        told = ", ".join(f"{k} {v:.2f}" for k, v in a_year(healthy, level).items() if v)
        yield f"healthy, {level} by kind: {told or 'none'}"
    yield "healthy, episodes by code: " + ", ".join(
        f"{code} ({level}) {n}" for (code, level), n in by_code(healthy).most_common()
    )


def _how_sure(healthy: Sequence[Replayed], level: Level) -> str:
    """The rate with its interval: of one seed's 80 animal-years it is wide."""
    found = number_of(healthy, level).values()
    count, years = sum(n for n, _ in found), sum(span for _, span in found)
    low, high = of_rate(count, years)
    told = f"{count} episodes in {years:.0f} animal-years, {count / years:.3f} a year"
    return f"healthy, {level}: {told}, 95 % interval {low:.3f} to {high:.3f}"


def _delays(ill: Mapping[str, Sequence[Replayed]]) -> Iterator[str]:
    yield "ill: weeks to the first (middle, 9 of 10 animals), and what they had lost (middle)"
    yield f"{'':34}{'look soon':>24}{'act now':>24}"
    for name, done in ill.items():
        told = "".join(_one(_delays_of(done, *levels)) for levels in (ANY, (Level.ACT_NOW,)))
        yield f"{name:34}{told}"


def _delays_of(done: Sequence[Replayed], *levels: Level) -> list[Delay]:
    return [delay for one in done for delay in delays(one, *levels)]


def _one(found: Sequence[Delay]) -> str:
    """Weeks and loss; a dash where fewer animals than that were ever told of."""
    weeks = [d.weeks for d in found]
    lost = quantile([d.lost for d in found], 0.5)
    told = (_figure(quantile(weeks, part)) for part in (0.5, MOST))
    return f"{next(told):>9}{next(told):>7}{_figure(100 * lost, ' %'):>8}"


def _figure(value: float, unit: str = "") -> str:
    return f"{value:.1f}{unit}" if isfinite(value) else "-"
