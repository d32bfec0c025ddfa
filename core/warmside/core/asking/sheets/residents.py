"""Who lives where, with what a stranger must know of each."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from datetime import date

from warmside.core.answers.parts import Column, Kind, Table
from warmside.core.asking.ask import Ask
from warmside.core.record.entities import Animal
from warmside.core.values.about import About

VENOMOUS = frozenset({"viper", "elapid"})
COLUMNS = (
    Column("enclosure", "in", Kind.CODE),
    Column("place", "which is"),
    Column("animal", "who"),
    Column("species", "what"),
    Column("food", "eats", below=True),
    Column("warmth", "warmth", below=True),
    Column("mind", "mind", below=True),
)


def residents(ask: Ask, on: date, enclosures: Collection[int] | None = None) -> list[Animal]:
    """The animals here in the order of rooms and enclosures; None is all enclosures."""
    book = ask.book
    here = book.animals_here(on)
    places = {a: book.enclosures.get(w.enclosure_id or 0) for a, w in here.items()}
    meant = [
        a for a, place in places.items() if enclosures is None or (place and place.id in enclosures)
    ]
    ranks = {rank.enclosure_id: rank.rank for rank in ask.care_ranks(on)}

    def order(animal: int) -> tuple[object, ...]:
        place = places[animal]
        return (ranks.get(place.id, 0), place.room, place.id) if place else (0, "", 0)

    return [book.animals[a] for a in sorted(meant, key=order)]


def residents_table(ask: Ask, on: date, animals: Collection[Animal]) -> Table:
    """A row for each animal: where it is, what it eats, how warm it is kept, what not to do."""
    rows = []
    for animal in animals:
        home = ask.book.whereabouts(on)[animal.id].enclosure_id
        place = ask.book.enclosures.get(home or 0)
        about = [About(animal.id), *([About(enclosure_id=place.id)] if place else [])]
        named = f"{place.name}{f', {place.room}' if place.room else ''}" if place else None
        food, warmth = (_said(ask, about, on, word) for word in ("diet", "targets"))
        mind = "; ".join(minds(ask, animal, about, on))
        what = animal.species.common or animal.species.scientific
        code = place.code if place else None
        rows.append((code, named, animal.label, what, food, warmth, mind or None))
    shown = [n for n in range(len(COLUMNS)) if any(row[n] for row in rows) or n < 4]
    columns = tuple(COLUMNS[n] for n in shown)
    return Table("residents", columns, tuple(tuple(row[n] for n in shown) for row in rows))


def minds(ask: Ask, animal: Animal, about: Collection[About], on: date) -> Iterator[str]:
    """Dangers first, then what not to do with it, then the keeper's notes."""
    if is_venomous(animal):
        yield "VENOMOUS: do not open"
    for word, before in (("hazard", ""), ("do-not", "do not ")):
        said = _said(ask, about, on, word)
        if said:
            yield f"{before}{said}"
    if animal.note:
        yield animal.note


def is_venomous(animal: Animal) -> bool:
    """Whether its group is one of venomous snakes."""
    return animal.species.group in VENOMOUS


def _said(ask: Ask, about: Collection[About], on: date, word: str) -> str | None:
    """What label lines whose key ends in the word say of these, each text once."""
    lines = (line for one in about for line in ask.label_lines(one, on))
    texts = dict.fromkeys(x.text for x in lines if x.key.rpartition(".")[2] == word)
    return "; ".join(texts) or None
