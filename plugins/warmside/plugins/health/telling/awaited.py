"""What is awaited: appointments, rechecks, results of samples, vaccinations, as tables."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from warmside.api import Book, Column, Kind, Part, Section, Table, Tone, Words
from warmside.plugins.health.appointments.appointment import Appointment
from warmside.plugins.health.appointments.vaccination import Vaccination
from warmside.plugins.health.reading.appointments import (
    all_again,
    all_pending,
    pending_of,
    vaccinations_of,
)
from warmside.plugins.health.reading.samples import all_awaited, samples_of
from warmside.plugins.health.samples.sample import Sample, awaited

AS_WRITTEN = Words("Word for word as it came; what it means a vet says.", Tone.CAUTION)
ONLY_A_VET = Words(
    "Whether a species has a vaccine, whether it needs it, a vet says.", Tone.CAUTION
)
Row = tuple[str | date | int | None, ...]
WHO = Column("animal", "animal", Kind.CODE)
APPOINTMENTS = (
    WHO,
    Column("due", "on", Kind.DATE),
    Column("clock", "at"),
    Column("by", "with"),
    Column("what", "what for"),
    Column("event", "event", text=False),
)
RESULTS = (
    WHO,
    Column("what", "sample of"),
    Column("lab", "laboratory"),
    Column("ref", "number"),
    Column("day", "handed in", Kind.DATE),
    Column("from", "asked for from", Kind.DATE),
    Column("event", "event", text=False),
)
AGAIN = (
    WHO,
    Column("what", "vaccine"),
    Column("day", "last", Kind.DATE),
    Column("again", "again", Kind.DATE),
    Column("by", "vet"),
    Column("event", "event", text=False),
)
SAMPLES = (
    Column("day", "day", Kind.DATE),
    Column("what", "sample of"),
    Column("lab", "laboratory"),
    Column("ref", "number"),
    Column("says", "result", below=True),
    Column("event", "event", text=False),
)


def all_awaited_tables(book: Book, on: date) -> tuple[Part, ...]:
    """A table each: appointments, results (of the dead too), vaccinations that are to come."""

    def code(animal: int) -> str:
        return book.animals[animal].code

    appointed = [(code(a), *_appointment(one)) for a, one in all_pending(book, on)]
    results = [(code(a), *_result(one)) for a, one in all_awaited(book, on)]
    again = [(code(a), *_again(one)) for a, one in all_again(book, on)]
    return (
        _sorted("appointments", "Appointments", APPOINTMENTS, appointed, "no appointment is made"),
        _sorted("results", "Results", RESULTS, results, "no result is awaited", by=5),
        _sorted("again", "Vaccinations", AGAIN, again, "no vaccination is to come", by=3),
    )


def _sorted(
    key: str,
    title: str,
    columns: tuple[Column, ...],
    rows: Iterable[Row],
    empty: str,
    by: int = 1,
) -> Table:
    """The rows by the day in the column of that number."""
    ordered = sorted(rows, key=lambda row: (str(row[by]), str(row[0])))
    return Table(key, columns, tuple(ordered), title, empty=empty)


def _appointment(one: Appointment) -> Row:
    clock = f"{one.clock:%H:%M}" if one.clock else None
    return one.due, clock, one.by or None, one.what or None, one.event


def _result(one: Sample) -> Row:
    return one.what, one.lab or None, one.ref or None, one.day, one.asked_from, one.event


def _again(one: Vaccination) -> Row:
    return one.what, one.day, one.again, one.by or None, one.event


def of_animal(book: Book, animal: int, on: date) -> Iterator[Section]:
    """The appointments, samples and vaccinations of one animal, each where there is any."""
    pending = pending_of(book, animal, on)
    if pending:
        yield Section(
            "Appointments", (_table("appointments", APPOINTMENTS, map(_appointment, pending)),), 294
        )
    samples = samples_of(book, animal, on)
    if samples:
        waits = {s.event for s in awaited(samples)}
        rows = tuple(_sample(s, s.event in waits) for s in samples)
        yield Section("Samples and results", (Table("samples", SAMPLES, rows), AS_WRITTEN), 295)
    given = vaccinations_of(book, animal, on)
    if given:
        yield Section("Vaccinations", (_table("vaccinations", AGAIN, map(_again, given)),), 296)


def _table(key: str, columns: tuple[Column, ...], rows: Iterable[Row]) -> Table:
    """The table of one animal, without the column that names it."""
    return Table(key, columns[1:], tuple(rows))


def _sample(one: Sample, waits: bool) -> Row:
    says = one.says if one.is_result else ("awaited" if waits else None)
    return one.day, one.what, one.lab or None, one.ref or None, says or None, one.event
