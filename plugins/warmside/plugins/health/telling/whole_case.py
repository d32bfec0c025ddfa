"""A case with everything that was recorded of its animal meanwhile."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from warmside.api import Animal, Answer, Ask, Column, Kind, Section, Table, pictures
from warmside.plugins.health.cases.course_of_case import Entry, cases
from warmside.plugins.health.kinds import CASE
from warmside.plugins.health.reading.courses import bottles_of, courses_of, wall_now
from warmside.plugins.health.telling.cases import NO_DIAGNOSIS, table
from warmside.plugins.health.telling.courses import table as course_table

COLUMNS = (
    Column("when", "when"),
    Column("what", "what happened"),
    Column("kind", "kind", Kind.CODE, text=False),
    Column("event", "event", text=False),
)


def whole_case(ask: Ask, whom: Animal, entries: Sequence[Entry], on: date) -> Answer | None:
    """The newest case that had begun by a day; None where there was none."""
    begun = [c for c in cases(entries) if c.begun <= on]
    if not begun:
        return None
    case = begun[-1]
    end = ask.book.today if case.is_open else case.entries[-1].day
    events = ask.book.events(animal=whom.id, since=case.begun, until=end)
    rows = tuple(
        (ask.when_words(e), ask.event_words(e), e.kind, e.id) for e in events if e.kind != CASE
    )
    courses = [
        c
        for c in courses_of(ask.book, whom.id, end)
        if c.order.start <= end and (c.last_day is None or c.last_day >= case.begun)
    ]
    bottles = bottles_of(ask.book, whom.id, courses, end)
    ordered = course_table(courses, end, wall_now(ask.book, end), bottles)
    told = Table("meanwhile", COLUMNS, rows, empty="nothing else is on record")
    return Answer(
        f"Case of {whom.label} since {case.begun}",
        (NO_DIAGNOSIS, table([case])),
        sections=(
            *((Section("Courses", (ordered,)),) if courses else ()),
            Section("Recorded meanwhile", (told,)),
            *_shown(ask, whom.id, case.begun, end),
        ),
    )


def _shown(ask: Ask, animal: int, since: date, until: date) -> Iterator[Section]:
    """The pictures of the animal of those days, of which a wound that heals is a series."""
    taken = [p for p in ask.book.pictures_of(animal=animal) if since <= p.day <= until]
    if taken:
        yield Section("Pictures meanwhile", (pictures.strip_of(taken),))
