"""A death in the keeper's words: what is on record of it, and what is still asked."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from warmside.api import Book, Column, Kind, Part, Section, Table, Tone, Words, paragraphs
from warmside.plugins.health.deaths.death import Death, Said
from warmside.plugins.health.kinds import DEATH, DIED
from warmside.plugins.health.tasks.after_death import death_tasks

COLUMNS = (
    Column("day", "day", Kind.DATE),
    Column("found", "found"),
    Column("necropsy", "necropsy"),
    Column("contacts", "those with it", below=True),
    Column("equipment", "its equipment", below=True),
    Column("prey", "frozen prey", below=True),
    Column("event", "event", text=False),
)
ONLY_A_VET = Words("Why it died a necropsy may say, and a vet; nothing here does.", Tone.CAUTION)


def still_asked(death: Death, said: Sequence[Said], on: date) -> Iterator[Part]:
    """The questions that the round will ask, each as a line."""
    yield ONLY_A_VET
    yield from paragraphs(
        *(f"{task.what}: {task.note}" for task in death_tasks(death, said, on)), tone=Tone.HINT
    )


def section(book: Book, animal: int, on: date) -> Iterator[Section]:
    """What was written of an animal since it died."""
    rows = tuple(
        (e.day, *((e.data[c.key] or None) for c in COLUMNS[1:-1]), e.id)
        for e in book.events(DEATH, animal=animal, until=on)
    )
    if rows and book.events(DIED, animal=animal, until=on):
        yield Section("After its death", (ONLY_A_VET, Table("death", COLUMNS, rows)), 285)
