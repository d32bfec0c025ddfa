"""Where the plugin takes part: reading, then computation, then a value."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from typing import TYPE_CHECKING

from warmside.api import (
    About,
    Ask,
    BadInput,
    Book,
    Doubtful,
    Estimate,
    Event,
    EventKind,
    Finding,
    LabelLine,
    Section,
    Task,
    When,
    hookimpl,
    sheets,
)
from warmside.plugins.habitat import tasks
from warmside.plugins.habitat.entry.odd_readings import doubts, says_nothing
from warmside.plugins.habitat.heat.metered import wrong
from warmside.plugins.habitat.kinds import METERED, READ_OUT, ZONE_READ
from warmside.plugins.habitat.reading.before_shed import too_dry
from warmside.plugins.habitat.reading.describing import described
from warmside.plugins.habitat.reading.exposed import exposed
from warmside.plugins.habitat.reading.kept_up import upkeep
from warmside.plugins.habitat.reading.lacking import lacking
from warmside.plugins.habitat.reading.loggers import loggers, probes_of, used
from warmside.plugins.habitat.reading.wanted import lights, wanted
from warmside.plugins.habitat.reading.watched import watched

if TYPE_CHECKING:  # writing needs SQLAlchemy, for which the round would wait
    from warmside.api import StepWriter

REPORT_DAYS = 14


@hookimpl
def warmside_event_kinds() -> list[EventKind]:
    """What was read at a place by hand; that a logger was read out; what the heat used."""
    return [ZONE_READ, READ_OUT, METERED]


@hookimpl
def warmside_tasks(book: Book, ask: Ask, on: date) -> Iterator[Task]:
    """Loggers to read out, probes to check; water, substrate, lamps, mist while one is opaque."""
    every = round(float(ask.setting("habitat", "probe_days")))
    for logger in used(book, on):
        yield from tasks.read_out(logger, on)
        for probe in probes_of(book, logger):
            yield from tasks.check(logger, probe, every, on)
    yield from upkeep(ask, on)


@hookimpl
def warmside_settle(writer: StepWriter, task: Task, value: str, when: When) -> list[str]:
    """A logger was looked at, a lamp is new, a probe was checked, with what its readings lack."""
    from warmside.plugins.habitat.commands.settled import settled  # writes, so imported late

    return [settled(writer, task, value, when.day)]


@hookimpl
def warmside_findings(ask: Ask, on: date, about: About | None) -> Iterator[Finding]:
    """Places beyond limits, heat that fails, stopped loggers, what a set-up lacks, dry air, UV."""
    yield from watched(ask, on, about)
    yield from lacking(ask, on, about)
    yield from too_dry(ask, on, about)
    yield from exposed(ask, on, about)


@hookimpl
def warmside_events_recorded(book: Book, events: tuple[Event, ...], confirmed: bool) -> tuple[()]:
    """A reading that hardly any place has is asked about."""
    for event in events:
        if event.kind == ZONE_READ.name:
            if says_nothing(event.data):
                raise BadInput("nothing was read: type --air, --surface, --humidity or --uv-index")
            found = list(doubts(event.data, book.home.display))
            if found and not confirmed:
                raise Doubtful("; ".join(found), found)
        elif event.kind == METERED.name:
            for line in wrong(event.data):
                raise BadInput(line)
    return ()


@hookimpl
def warmside_label_lines(ask: Ask, about: About, on: date) -> Iterator[LabelLine]:
    """The targets of the zones that an enclosure is described with, from warm to cool."""
    found = None if about.enclosure_id is None else wanted(ask, about.enclosure_id, on)
    told = [(z.name, z.air) for z in found.zones if z.air] if found else []
    if told:
        words = (f"{name} {low:g}–{high:g} °C" for name, (low, high) in told)
        yield LabelLine("habitat.targets", ", ".join(words))


@hookimpl
def warmside_answer(ask: Ask, what: str, about: object, on: date) -> Iterator[Estimate]:
    """How long it stays warm without heat; how warm its zones were; how long an animal is."""
    if what == "zone temperature":
        if loggers(ask.book):
            from warmside.plugins.habitat.reading.zone_air import zone_air

            yield from zone_air(ask.book, about, on)
        return
    if what == "length":
        if isinstance(about, About) and about.animal_id is not None:
            from warmside.plugins.habitat.reading.bodies import length_now

            yield from length_now(ask, about.animal_id, on)
        return
    from warmside.plugins.habitat.reading.warm_hours import warm_hours

    yield from warm_hours(ask, about, on)


@hookimpl
def warmside_sheet_sections(
    ask: Ask, sheet: sheets.Sheet, about: About, on: date
) -> Iterator[Section]:
    """Lamps, heat and what loggers say of an animal's home, for a vet."""
    if sheet is not sheets.Sheet.VET or about.animal_id is None:
        return
    home = ask.book.whereabouts(on)[about.animal_id].enclosure_id
    if home is not None:
        from warmside.plugins.habitat.reading.for_vet import set_up_here

        yield from set_up_here(ask, home, on)


@hookimpl
def warmside_report_sections(ask: Ask, about: About, on: date) -> Iterator[Section]:
    """An enclosure's set-up with its plan, its zones over two weeks, and the curve of a day."""
    yield from _set_up(ask, about, on)
    if about.enclosure_id is None or not used(ask.book, on, about):
        return
    from warmside.plugins.habitat.reading.zones_here import last_curves, measured
    from warmside.plugins.habitat.telling.zones import day_curve, zone_parts

    found = measured(ask, about.enclosure_id, on - timedelta(days=REPORT_DAYS - 1), on)
    if found:
        day, curves = last_curves(ask, about.enclosure_id, on)
        curve = (day_curve(day, curves, ask.book.home.zone),) if curves else ()
        yield Section("Zones as measured", (*zone_parts(found), *curve), 440)


def _set_up(ask: Ask, about: About, on: date) -> Iterator[Section]:
    if about.enclosure_id is None:
        return
    found = described(ask.book, about.enclosure_id, on)
    if found is not None:
        from warmside.plugins.habitat.reading.seen_here import seen_here
        from warmside.plugins.habitat.telling.description import sheet_parts

        seen = seen_here(ask, about.enclosure_id, on)
        spans = wanted(ask, about.enclosure_id, on)
        on_hour, _ = lights(ask, about.enclosure_id)
        parts = sheet_parts(found, "Plan", spans, seen, on_hour, ask.book.home.display)
        yield Section("Set-up", parts, 430)
        yield from _room(ask, about.enclosure_id, on)


def _room(ask: Ask, enclosure_id: int, on: date) -> Iterator[Section]:
    """Published rules of space, where somebody who lives there was ever measured."""
    from warmside.plugins.habitat.reading.rooms import box_of, residents
    from warmside.plugins.habitat.telling.outgrown import outgrown_parts

    box = box_of(ask, enclosure_id, on)
    found = residents(ask, enclosure_id, box, on) if box else []
    measured = [one for one in found if one.body is not None]
    if measured:
        yield Section("Room", outgrown_parts(measured, ask.book.home.display), 435)
