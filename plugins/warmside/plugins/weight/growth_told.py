"""An animal's own growth curve in words, figures and a chart."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import Answer, Column, Display, Fact, Kind, Part, Table, Tone, Unit, Words
from warmside.plugins.weight.chart_drawn import chart_of
from warmside.plugins.weight.growth import Growth, expected_mass, grow
from warmside.plugins.weight.series import day_text, gram_text
from warmside.plugins.weight.weights import Weights

AHEAD = (0, 30, 60, 90, 180, 365)
COLUMNS = (Column("day", "day", Kind.DATE), Column("mass", "expected mass", Unit.MASS))


def growth_shown(weights: Weights, on: date, display: Display) -> Answer:
    """The chosen curve, the adult mass or why there is none, and what is expected.

    BadInput with fewer days of weighing than a curve needs.
    """
    grown = grow(weights.course.weighings)
    parts = (*_facts(grown), *_adult(grown, display), _ahead(grown, on))
    aside = _aside(weights, grown, display)
    chart = chart_of(weights, None, on, display)
    return Answer(f"Growth of {weights.animal.label}, as of {on}", (*parts, *aside, *chart))


def _facts(grown: Growth) -> Iterator[Fact]:
    yield Fact("curve", "curve", grown.best.shape.name)
    others = tuple(one.shape.name for one in grown.plausible[1:])
    yield Fact("also_plausible", "also plausible", others, Kind.LIST)
    yield Fact("weighings", "weighings used", len(grown.used), Unit.COUNT)
    yield Fact("first", "from", date.fromordinal(int(grown.used.days[0])), Kind.DATE)
    yield Fact("last", "to", date.fromordinal(int(grown.used.days[-1])), Kind.DATE)


def _adult(grown: Growth, display: Display) -> Iterator[Part]:
    yield Fact("adult_mass", "adult mass", grown.adult, Unit.MASS)
    if grown.adult is None:
        yield Words(f"{grown.why_no_adult.said(display)}; no adult mass is told", Tone.CAUTION)


def _ahead(grown: Growth, on: date) -> Table:
    days = [on.toordinal() + ahead for ahead in AHEAD]
    found = [(date.fromordinal(d), expected_mass(grown, float(d))) for d in days]
    rows = tuple((day, mass) for day, mass in found if mass is not None)
    empty = "these weighings carry no prediction as far as today; weigh it now"
    return Table("expected", COLUMNS, rows, "What to expect, 95 % range", empty)


def _aside(weights: Weights, grown: Growth, display: Display) -> Iterator[Words]:
    if grown.set_aside:
        named = ", ".join(
            f"{gram_text(weights.mass_of(e), display)} on {day_text(weights.day_of(e))} (event {e})"
            for e in grown.set_aside
        )
        yield Words(f"set aside as far from the curve: {named}", Tone.CAUTION)
