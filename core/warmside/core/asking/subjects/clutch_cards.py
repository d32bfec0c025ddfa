"""Clutches: all of them in a list, one of them on one page."""

from __future__ import annotations

from warmside.core.answers.parts import Answer, Column, Fact, Kind, Table
from warmside.core.asking.ask import Ask
from warmside.core.asking.subjects.kin_words import share_words
from warmside.core.asking.subjects.recorded import EVENT_COLUMNS, event_row
from warmside.core.record.book import Book
from warmside.core.record.entities import Clutch, Event
from warmside.core.values.counts import counted
from warmside.core.values.units import Unit


def clutches(book: Book) -> Answer:
    """All clutches, in the order of their codes."""
    columns = (
        Column("code", "code", Kind.CODE),
        Column("dam", "dam"),
        Column("sires", "sires", Kind.LIST),
        Column("laid", "laid", Kind.DATE),
        Column("hatched", "hatched", Kind.DATE),
        Column("eggs", "eggs", Unit.COUNT),
        Column("good", "good", Unit.COUNT),
        Column("young", "young entered", Unit.COUNT),
    )
    rows = tuple(
        (
            c.code,
            _label(book, c.dam_id),
            _sires(book, c),
            c.laid,
            c.hatched_first,
            c.eggs,
            c.good,
            len(book.young_of(c.id)),
        )
        for c in book.clutches.values()
    )
    hint = "no clutch yet; enter one: warmside clutch add --dam CODE --laid DAY"
    return Answer("Clutches", (Table("clutches", columns, rows, empty=hint),))


def clutch_card(ask: Ask, clutch: Clutch) -> Answer:
    """The answer of `clutch show`."""
    book = ask.book
    young = tuple((a.code, a.name, a.sex) for a in book.young_of(clutch.id))
    columns = (Column("code", "code", Kind.CODE), Column("name", "name"), Column("sex", "sex"))
    events = tuple(event_row(ask, e) for e in _events(book, clutch))
    return Answer(
        f"Clutch {clutch.code}",
        (
            *_facts(book, clutch),
            Table("young", columns, young, "Young", "none entered"),
            *([Table("events", EVENT_COLUMNS, events, "Events")] if events else []),
        ),
    )


def _facts(book: Book, clutch: Clutch) -> tuple[Fact, ...]:
    facts = (
        Fact("code", "code", clutch.code, Kind.CODE),
        Fact("dam", "dam", _label(book, clutch.dam_id)),
        Fact("sires", "sires", _sires(book, clutch), Kind.LIST),
        Fact("laid", "laid", clutch.laid, Kind.DATE),
        Fact("hatched_first", "first hatched", clutch.hatched_first, Kind.DATE),
        Fact("hatched_last", "last hatched", clutch.hatched_last, Kind.DATE),
        Fact("eggs", "eggs", clutch.eggs, Unit.COUNT),
        Fact("good", "good", clutch.good, Unit.COUNT),
        Fact("note", "note", clutch.note or None),
    )
    return tuple(f for f in facts if f.value is not None)


def _events(book: Book, clutch: Clutch) -> list[Event]:
    """What was recorded of the clutch."""
    found = book.events("laid", "hatched", animal=clutch.dam_id)
    return [e for e in found if e.data.get("clutch_id") == clutch.id]


def clutch_words(book: Book, clutch: Clutch) -> str:
    """The clutch in one line: `clutch C1 of Tuppence (TUP), laid 2026-03-01, 6 eggs, 5 good`."""
    whose = _label(book, clutch.dam_id) or " or ".join(_sires(book, clutch))
    told = [f"{clutch.label} of {whose}"]
    told += [f"laid {clutch.laid}"] if clutch.laid else []
    told += [f"hatched {clutch.hatched_first}"] if clutch.hatched_first else []
    told += [counted(clutch.eggs, "egg")] if clutch.eggs is not None else []
    told += [f"{clutch.good} good"] if clutch.good is not None else []
    return ", ".join(told)


def _label(book: Book, animal_id: int | None) -> str | None:
    return book.animals[animal_id].label if animal_id is not None else None


def _sires(book: Book, clutch: Clutch) -> tuple[str, ...]:
    return tuple(f"{_label(book, s.animal_id)}, {share_words(s)}" for s in clutch.sires)
