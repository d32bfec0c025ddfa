"""An animal's own growth curve in words, figures and a chart."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from msgspec.structs import replace

from warmside.api import Answer, Column, Display, Fact, Kind, Part, Table, Tone, Unit, Words
from warmside.plugins.weight.course.series import day_text, gram_text
from warmside.plugins.weight.course.standing import Standing
from warmside.plugins.weight.course.weights import Weights
from warmside.plugins.weight.growth.growth import Growth, expected_mass
from warmside.plugins.weight.telling.chart import chart_of

AHEAD = (0, 30, 60, 90, 180, 365)
COLUMNS = (Column("day", "day", Kind.DATE), Column("mass", "expected mass", Unit.MASS))


def growth_shown(it: Standing, grown: Growth) -> Answer:
    """The chosen curve, the adult mass or why there is none, and what is expected."""
    display = it.limits.display
    parts = (*_facts(grown), *_adult(grown, display), _ahead(grown, it.on))
    aside = _aside(it.weights, grown, display)
    chart = chart_of(replace(it, reference=None), lambda: grown)
    title = f"Growth of {it.weights.animal.label}, as of {it.on}"
    return Answer(title, (*parts, *aside, *chart))


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
