"""Pictures and papers as parts of answers: as lists, and as they are looked at."""

from __future__ import annotations

from collections.abc import Iterable

from warmside.core.answers.parts import Cell, Column, Kind, Table
from warmside.core.record.book import Book
from warmside.core.record.pictures import Picture
from warmside.core.values.counts import size_words
from warmside.core.values.units import Unit

COLUMNS = (
    Column("picture", "picture", Unit.COUNT),
    Column("day", "day", Kind.DATE),
    Column("of", "of"),
    Column("view", "view"),
    Column("what", "what it is"),
    Column("note", "note", below=True),
    Column("event", "event", Unit.COUNT),
    Column("digest", "digest", text=False),
    Column("size_bytes", "size", text=False),
)


def pictures_table(
    book: Book, pictures: Iterable[Picture], title: str = "", key: str = "pictures"
) -> Table:
    """One row a picture; columns that nothing stands in are for programs alone."""
    shown = list(pictures)
    rows = tuple(_row(book, p) for p in shown)
    empty = "no picture and no paper yet; take one in: warmside picture add CODE FILE"
    columns = tuple(
        Column(c.key, c.title, c.kind, c.text and _is_told(rows, n), c.below)
        for n, c in enumerate(COLUMNS)
    )
    return Table(key, columns, rows, title, empty)


def _is_told(rows: tuple[tuple[Cell, ...], ...], column: int) -> bool:
    return not rows or any(row[column] for row in rows)


def _row(book: Book, picture: Picture) -> tuple[Cell, ...]:
    return (
        picture.id,
        picture.day,
        whose(book, picture),
        picture.view or None,
        what_it_is(picture),
        picture.note or None,
        picture.event_id,
        picture.digest,
        picture.size_bytes,
    )


def whose(book: Book, picture: Picture) -> str:
    """Whom it is of, in the keeper's words."""
    animal = book.animals.get(picture.animal_id) if picture.animal_id else None
    place = book.enclosures.get(picture.enclosure_id) if picture.enclosure_id else None
    thing = f"{picture.thing} {picture.thing_id}" if picture.thing else ""
    told = (animal.label if animal else "", place.code if place else "", thing)
    return ", ".join(filter(None, told))


def what_it_is(picture: Picture) -> str:
    """`photo 4032 × 3024, 2.1 MB`."""
    size = size_words(picture.size_bytes)
    if picture.is_paper:
        return f"PDF, {size}"
    return f"photo {picture.width} × {picture.height}, {size}"
