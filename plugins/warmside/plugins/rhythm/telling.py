"""Rhythms in the keeper's words: the list, and the lines of labels."""

from __future__ import annotations

from collections.abc import Iterable

from warmside.api import Book, Column, EventKind, Kind, LabelLine, Table, Unit, every_days
from warmside.plugins.rhythm.intervals.next_time import Rhythm

COLUMNS = (
    Column("kind", "what"),
    Column("extent", "how much"),
    Column("every", "every", Unit.DAYS),
    Column("whom", "for", Kind.CODE),
)
NONE_YET = "no rhythm yet; set one: warmside rhythm set weighed --every 30"


def table(book: Book, rhythms: Iterable[Rhythm]) -> Table:
    """The rhythms, a line each."""
    rows = tuple((r.kind, r.extent or None, r.days, whom(book, r)) for r in rhythms)
    return Table("rhythms", COLUMNS, rows, empty=NONE_YET)


def whom(book: Book, rhythm: Rhythm) -> str:
    """The subject's code, or `all`."""
    about = rhythm.about
    if about.animal_id is not None:
        return book.animals[about.animal_id].code
    return book.enclosures[about.enclosure_id].code if about.enclosure_id is not None else "all"


def label_line(kind: EventKind, rhythm: Rhythm) -> LabelLine:
    """How often it is done, for a sitter."""
    return LabelLine(f"rhythm.{kind.name}", f"{title(kind, rhythm)} {every_days(rhythm.days)}")


def title(kind: EventKind, rhythm: Rhythm) -> str:
    """What is done: `weighed`, or with its extent `cleaned (full)`."""
    return f"{kind.title} ({rhythm.extent})" if rhythm.extent else kind.title
