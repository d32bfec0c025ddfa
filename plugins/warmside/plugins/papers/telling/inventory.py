"""The list for insurance or the fire brigade: every animal here, its marks, papers and value."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from warmside.api import Animal, Answer, Ask, Cell, Column, Kind, Part, Table, Tone, Words
from warmside.plugins.papers.reading.stored import documents_of, marks_of
from warmside.plugins.papers.telling.papers import LAW, documents_table

COLUMNS = (
    Column("room", "room"),
    Column("enclosure", "in", Kind.CODE),
    Column("animal", "animal"),
    Column("species", "species", Kind.LATIN),
    Column("sex", "sex"),
    Column("hatched", "hatched"),
    Column("marks", "marks", below=True),
    Column("came", "came", below=True),
    Column("papers", "papers", below=True),
    Column("value", "value", below=True),
)
OWN_WORDS = "Values are the keeper's own words; what is paid in a loss the policy says."


def inventory(ask: Ask, on: date) -> Answer:
    """Everything that is here on a day, by room."""
    here = ask.book.animals_here(on)
    homes = {a: ask.book.enclosures.get(w.enclosure_id or 0) for a, w in here.items()}
    places = {a: (home.room, home.code) if home else ("", "") for a, home in homes.items()}
    animals = [ask.book.animals[a] for a in sorted(places, key=lambda a: (places[a], a))]
    rows = tuple(_row(ask, animal, places[animal.id], on) for animal in animals)
    keepers = [d for d in documents_of(ask.book, None) if d.is_needed(on)]
    parts: tuple[Part, ...] = (
        Words(f"{OWN_WORDS} {LAW}", Tone.CAUTION),
        _without_blanks(rows),
        *([documents_table(ask.book, keepers, on)] if keepers else []),
    )
    return Answer(f"Animals of {ask.book.home.name}, as of {on}", parts)


def _without_blanks(rows: Sequence[tuple[Cell, ...]]) -> Table:
    shown = [n for n, _ in enumerate(COLUMNS) if any(row[n] is not None for row in rows)]
    columns = tuple(COLUMNS[n] for n in shown)
    cut = tuple(tuple(row[n] for n in shown) for row in rows)
    return Table("animals", columns, cut, empty="no animal is here")


def _row(ask: Ask, animal: Animal, place: tuple[str, str], on: date) -> tuple[Cell, ...]:
    room, code = place
    papers = [d for d in documents_of(ask.book, animal.id) if d.is_needed(on)]
    return (
        room or None,
        code or None,
        animal.label,
        animal.species.scientific,
        animal.sex,
        animal.hatched.text if animal.hatched else None,
        "; ".join(mark.words for mark in marks_of(ask.book, animal.id)) or None,
        "; ".join(_came(ask, animal, on)) or None,
        "; ".join(f"{d.name} ({d.state(on)})" for d in papers) or None,
        "; ".join(d.value for d in papers if d.value) or None,
    )


def _came(ask: Ask, animal: Animal, on: date) -> Iterator[str]:
    came = ask.book.events("kept", "arrived", animal=animal.id, until=on)
    told = f"{came[0].day} {ask.event_words(came[0])}" if came else ""
    if told:
        yield told
    if animal.origin and animal.origin not in told:
        yield animal.origin
