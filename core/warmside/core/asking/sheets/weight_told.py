"""The mass of a year as a sentence and a curve, with meals and sheds below it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from warmside.core.answers.charts import Chart, Line, MarkRow
from warmside.core.answers.parts import Fact, Part, Words
from warmside.core.asking.ask import Ask
from warmside.core.asking.sheets.meals import ATE
from warmside.core.asking.sheets.weights import Course, course
from warmside.core.asking.subjects.bodies import body_facts
from warmside.core.record.entities import Animal, Event
from warmside.core.values.quantities import format_quantity
from warmside.core.values.units import Unit

SHOWN_LOSS = 1.0
"""Percent below which a difference is that of the scale, and is not told (common practice)."""


def weight(ask: Ask, animal: Animal, since: date, on: date) -> tuple[Part, ...]:
    """The last weighing beside the heaviest, the score by eye, the curve of the year."""
    weighed = ask.book.events("weighed", animal=animal.id, since=since, until=on)
    found = course(weighed)
    condition = [f for f in body_facts(ask, animal, on) if f.key == "body_condition"]
    if found is None:
        return (Words("no weighing is on record for a year"), *_scored(condition))
    return (
        Words(_sentence(ask, found)),
        *_scored(condition),
        *_curve(ask, animal, weighed, since, on),
    )


def _sentence(ask: Ask, found: Course) -> str:
    shown = ask.book.home.display
    told = f"{format_quantity(found.last.mass_g, Unit.MASS, shown)} on {found.last.day}"
    heaviest = f"{format_quantity(found.heaviest.mass_g, Unit.MASS, shown)} on {found.heaviest.day}"
    if found.last == found.heaviest:
        return f"{told}, the heaviest of a year"
    if found.loss_percent < SHOWN_LOSS:
        return f"{told}, as heavy as ever within a year"
    return f"{told}, {found.loss_percent:.0f} % below the heaviest of a year, {heaviest}"


def _scored(condition: Sequence[Fact]) -> Iterator[Words]:
    for fact in condition:
        on = fact.basis.rule if fact.basis else ""
        yield Words(f"body condition {fact.value}, {on}")


def _curve(
    ask: Ask, animal: Animal, weighed: Sequence[Event], since: date, on: date
) -> Iterator[Chart]:
    if len(weighed) < 2:
        return
    fed = ask.book.events("fed", animal=animal.id, since=since, until=on)
    shed = ask.book.events("shed", animal=animal.id, since=since, until=on)
    rows = (
        ("eaten", [e for e in fed if e.data["outcome"] in ATE], "|"),
        ("refused", [e for e in fed if e.data["outcome"] == "refused"], "o"),
        ("brought up", [e for e in fed if e.data["outcome"] == "regurgitated"], "v"),
        ("shed", shed, "s"),
    )
    marks = tuple(MarkRow(title, _days(events), sign) for title, events, sign in rows if events)
    days, masses = _days(weighed), tuple(e.data["mass_g"] for e in weighed)
    lines = (Line("mass", days, masses), Line("weighed", days, masses, points=True))
    yield Chart("weights", "", "", "mass", Unit.MASS, lines, marks=marks, low=True)


def _days(events: Sequence[Event]) -> tuple[float, ...]:
    return tuple(float(event.day.toordinal()) for event in events)
