"""An animal's cycles as a table and as a timeline with the next shed ahead."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from warmside.api import Cell, Column, Kind, Table, Unit, timelines
from warmside.plugins.shed.cycles.aftermath import NOT_SAID, Aftermath
from warmside.plugins.shed.cycles.animal import AnimalSheds
from warmside.plugins.shed.cycles.cycle import Cycle, Stage
from warmside.plugins.shed.forecast.next_shed import NextShed

COLUMNS = (
    Column("dull", "dull", Kind.DATE, text=False),
    Column("opaque", "opaque", Kind.DATE),
    Column("clear", "clear", Kind.DATE),
    Column("shed", "shed", Kind.DATE),
    Column("interval", "interval", Unit.DAYS),
    Column("outcome", "outcome"),
    Column("retained", "left on", Kind.LIST),
    Column("still", "still on", Kind.LIST, text=False),
    Column("slough", "shed skin", Unit.LENGTH, text=False),
    Column("events", "events", Kind.LIST, text=False),
)
SIGNS = {
    "one piece": ("o", "shed in one piece"),
    "pieces": ("p", "shed in pieces"),
    "eaten": ("e", "shed, skin eaten"),
    NOT_SAID: ("u", "shed, not said how"),
}
LEFT_ON = ("!", "shed, skin left on")


def cycles_table(sheds: AnimalSheds, since: date) -> Table:
    """The cycles that reach to a day or beyond it, oldest first, with the days between sheds."""
    rows, before = [], None
    for cycle in sheds.history.cycles:
        if cycle.last.day >= since:
            rows.append(_row(cycle, before, _of(sheds, cycle)))
        before = cycle.shed or (None if cycle.led_to_shed else before)
    return Table("cycles", COLUMNS, tuple(rows), "Cycles", "no stage or shed on record")


def _row(cycle: Cycle, before: date | None, shed: Aftermath | None) -> tuple[Cell, ...]:
    first = {s.stage: s.day for s in cycle.seen}
    days = [first.get(stage) for stage in Stage]
    interval = (cycle.shed - before).days if cycle.shed and before else None
    events = tuple(str(e) for e in cycle.events)
    if shed is None:
        return (*days, interval, None, (), (), None, events)
    return (*days, interval, shed.outcome, shed.retained, shed.still, shed.slough_mm, events)


def _of(sheds: AnimalSheds, cycle: Cycle) -> Aftermath | None:
    return next((s for s in sheds.sheds if s.day == cycle.shed), None)


def timeline(sheds: AnimalSheds, since: date, ahead: NextShed | None) -> timelines.Timeline:
    """Stages and sheds from a day on, and the ranges of the next shed."""
    rows = [_stage_row(sheds, stage) for stage in (Stage.DULL, Stage.OPAQUE, Stage.CLEAR)]
    rows = [r for r in rows if any(s.end >= since for s in r.spans)]
    rows.append(timelines.TimelineRow("shed", moments=tuple(_mark(s) for s in sheds.sheds)))
    end = sheds.on
    next_row = _next_row(sheds, ahead)
    if next_row is not None:
        rows.append(next_row)
        end = max(end, *(s.end for s in next_row.spans))
    title = f"Cycles of {sheds.rows.name}"
    return timelines.Timeline("timeline", title, since, end, tuple(rows), sheds.on)


def _stage_row(sheds: AnimalSheds, stage: Stage) -> timelines.TimelineRow:
    spans = tuple(s for c in sheds.history.cycles for s in _spans(c, stage, sheds.on))
    return timelines.TimelineRow(stage.value, spans)


def _spans(cycle: Cycle, stage: Stage, on: date) -> Iterator[timelines.Span]:
    """The days of a stage: to the day before the next one, of the last one to today if it lasts."""
    for index, seen in enumerate(cycle.seen):
        if seen.stage is stage:
            if index + 1 < len(cycle.seen):
                end = cycle.seen[index + 1].day - timedelta(days=1)
            else:
                end = seen.day if cycle.over else on
            yield timelines.Span(seen.day, max(seen.day, end), "", stage is Stage.OPAQUE)


def _mark(shed: Aftermath) -> timelines.Moment:
    return timelines.Moment(shed.day, *(LEFT_ON if shed.retained else SIGNS[shed.outcome]))


def _next_row(sheds: AnimalSheds, ahead: NextShed | None) -> timelines.TimelineRow | None:
    if sheds.now.shed is not None:
        usual = sheds.now.shed
        return timelines.TimelineRow(
            "shed usual", (timelines.Span(usual.low, max(usual.high, sheds.on), ""),)
        )
    if ahead is None:
        return None
    wide, narrow = (
        timelines.Span(*ahead.dates_90, "", strong=False),
        timelines.Span(*ahead.dates_50, ""),
    )
    return timelines.TimelineRow("next, 50 % in 90 %", (wide, narrow))
