"""Where the plugin takes part: reading, then computation, then a value."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING

from warmside.api import (
    About,
    Ask,
    Book,
    Estimate,
    EventKind,
    Finding,
    LabelLine,
    Pair,
    Section,
    Task,
    When,
    hookimpl,
)
from warmside_climatelog import findings, reading, tasks
from warmside_climatelog.climate.limits import silent_hours
from warmside_climatelog.climate.sensors import Sensor
from warmside_climatelog.kinds import READ_OUT
from warmside_climatelog.telling.day import day_parts
from warmside_climatelog.telling.words import label_line, zone_answer

if TYPE_CHECKING:  # writing needs SQLAlchemy, for which the round would wait
    from warmside.api import StepWriter


@hookimpl
def warmside_event_kinds() -> list[EventKind]:
    """A logger was read out."""
    return [READ_OUT]


@hookimpl
def warmside_tasks(book: Book, ask: Ask, on: date) -> Iterator[Task]:
    """Probes to check."""
    every = int(ask.setting("climatelog", "probe_days"))
    yield from tasks.probes(reading.hanging(book, on), every, on)


@hookimpl
def warmside_settle(writer: StepWriter, task: Task, value: str, when: When) -> list[str]:
    """A probe was checked; a value is added to its readings."""
    from warmside_climatelog.commands.sensors import check_probe  # writes, so imported late

    return [check_probe(writer, task.data["sensor"], value, when.day)]


@hookimpl
def warmside_findings(book: Book, ask: Ask, on: date, about: About | None) -> Iterator[Finding]:
    """Silent loggers, and places that are too warm."""
    for sensor in reading.hanging(book, on, about):
        found = (_silent(book, ask, sensor, on), _warm(book, ask, sensor, on))
        yield from (f for f in found if f is not None)


def _silent(book: Book, ask: Ask, sensor: Sensor, on: date) -> Finding | None:
    last, now = reading.last_reading(book, sensor, on), reading.moment(book, on)
    hours = silent_hours(last, reading.set_up(book, sensor), now)
    return findings.silent(sensor, hours, ask.value("climatelog", "silent_hours"))


def _warm(book: Book, ask: Ask, sensor: Sensor, on: date) -> Finding | None:
    day = reading.day(book, sensor, on)
    if day is None or sensor.enclosure_id is None:
        return None
    most = reading.limit(ask, sensor.enclosure_id, on)
    last = reading.last_reading(book, sensor, on)
    return findings.warm(sensor, sensor.degrees(day.high), last, most, book.home.display)


@hookimpl
def warmside_label_lines(book: Book, ask: Ask, about: About, on: date) -> Iterator[LabelLine]:
    """How warm a place with a logger may be."""
    if about.enclosure_id is not None and reading.hanging(book, on, about):
        most = reading.limit(ask, about.enclosure_id, on).value
        yield label_line(most, book.home.display)


@hookimpl
def warmside_report_sections(ask: Ask, about: About, on: date) -> Iterator[Section]:
    """The day of an enclosure with sensors, as its command shows it."""
    place = about.enclosure_id
    if place is not None and reading.sensors_in(ask.book, place, on):
        yield Section("Temperature", day_parts(reading.day_here(ask, place, on)), 450)


@hookimpl
def warmside_answer(book: Book, what: str, about: About | Pair, on: date) -> Iterator[Estimate]:
    """The temperature of the zones of an enclosure, or of an animal's home."""
    if what == "zone temperature" and isinstance(about, About):
        for sensor in reading.hanging(book, on, about):
            if day := reading.day(book, sensor, on):
                yield zone_answer(sensor, day)


@hookimpl
def warmside_check(book: Book) -> list[str]:
    """Sensors that hang nowhere, readings out of time."""
    return findings.checks(*reading.misplaced(book), book.today)
