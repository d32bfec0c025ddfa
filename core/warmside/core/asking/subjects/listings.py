"""Lists of animals, enclosures and species."""

from __future__ import annotations

from datetime import date

from warmside.core.answers.parts import Answer, Column, Kind, Table
from warmside.core.asking.rounds.away import away_table
from warmside.core.record.book import Book
from warmside.core.values.units import Unit


def animals(book: Book, on: date, *, everyone: bool = False, room: str | None = None) -> Answer:
    """The animals of a day, where they are and who holds them; `everyone` also who is not here."""
    columns = (
        Column("code", "code", Kind.CODE),
        Column("name", "name"),
        Column("species", "species", Kind.LATIN),
        Column("sex", "sex"),
        Column("hatched", "hatched"),
        Column("enclosure", "in"),
        Column("custody", "it is", text=everyone),
    )
    rows = []
    for animal in book.animals.values():
        where = book.whereabouts(on)[animal.id]
        place = book.enclosures.get(where.enclosure_id) if where.enclosure_id else None
        elsewhere = place is None or place.room.casefold() != (room or "").casefold()
        if not (everyone or where.custody.is_here) or (room and elsewhere):
            continue
        rows.append(
            (
                animal.code,
                animal.name,
                animal.species.scientific,
                animal.sex,
                animal.hatched.text if animal.hatched else None,
                place.code if place else None,
                where.custody.value,
            )
        )
    hint = "no animal yet; enter one: warmside animal add NAME --species SPECIES"
    table = Table("animals", columns, tuple(rows), empty=hint)
    return Answer("Animals", (table, *(() if room else (away_table(book, on),))))


def enclosures(book: Book, on: date, *, retired: bool = False) -> Answer:
    """The enclosures and who lives in them on a day; `retired` also those out of use."""
    columns = (
        Column("code", "code", Kind.CODE),
        Column("name", "name"),
        Column("room", "room"),
        Column("width", "width", Unit.LENGTH),
        Column("depth", "depth", Unit.LENGTH),
        Column("height", "height", Unit.LENGTH),
        Column("animals", "animals", Kind.LIST),
        Column("retired", "retired", Kind.YESNO, text=retired),
    )
    inside = book.occupants(on)
    rows = tuple(
        (
            e.code,
            e.name,
            e.room,
            e.width_mm,
            e.depth_mm,
            e.height_mm,
            tuple(book.animals[a].label for a in inside.get(e.id, ())),
            e.retired,
        )
        for e in book.enclosures.values()
        if retired or not e.retired
    )
    hint = "no enclosure yet; enter one: warmside enclosure add NAME --room ROOM"
    return Answer("Enclosures", (Table("enclosures", columns, rows, empty=hint),))


def species(book: Book) -> Answer:
    """The species of the collection."""
    columns = (
        Column("scientific", "scientific name", Kind.LATIN),
        Column("common", "common name"),
        Column("group", "group"),
        Column("sex_system", "sex"),
    )
    rows = tuple((s.scientific, s.common, s.group, s.sex_system) for s in book.species.values())
    return Answer("Species", (Table("species", columns, rows),))
