"""Fields of events that refer to rows of the record: typed as codes, stored as ids."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import partial
from typing import Any, NamedTuple

from warmside.core.kinds.fields import Target, reference_named
from warmside.core.kinds.parsing import Readers
from warmside.core.kinds.saying import numbered
from warmside.core.record.book import Book
from warmside.core.record.entities import Animal, Clutch, NewEvent
from warmside.core.values.errors import BadInput, NotFound
from warmside.core.values.moments import parse_day


class Reference(NamedTuple):
    """A row that an event's data refer to, by the plain name of the field."""

    key: str
    target: Target
    id: int


def references(data: Mapping[str, Any]) -> Iterator[Reference]:
    """The references in an event's data, found by their names: no plugin need be at work."""
    for name, value in data.items():
        found = reference_named(name)
        if found is not None and isinstance(value, int):
            yield Reference(found.key, found.target, value)


def readers(book: Book) -> Readers:
    """What reads typed days and references, for parsing fields."""
    home = book.home
    return Readers(
        lambda text: parse_day(text, book.now, home.zone, home.dates),
        partial(id_of, book),
        home.display,
    )


def id_of(book: Book, target: Target, code_or_name: str) -> int:
    """The id of what has that code or name; raises NotFound."""
    if target is Target.CLUTCH:
        return book.clutch(code_or_name).id
    return book.animal(code_or_name).id


def label_of(book: Book, target: Target, id: int) -> str:
    """What a reference is called in the keeper's words."""
    found = _row(book, target, id)
    if found is None:
        return numbered(target, id)
    return found.label if isinstance(found, Animal) else found.code


def _row(book: Book, target: Target, id: int) -> Animal | Clutch | None:
    return book.clutches.get(id) if target is Target.CLUTCH else book.animals.get(id)


def told_data(book: Book, data: Mapping[str, Any]) -> dict[str, Any]:
    """The data as a program reads them: a reference `partner_animal_id` as `partner`, a code."""
    told = {}
    for name, value in data.items():
        found = reference_named(name)
        if found is None:
            told[name] = value
        else:
            told[found.key] = None if value is None else code_of(book, found.target, value)
    return told


def code_of(book: Book, target: Target, id: int) -> str | None:
    """The code of what a reference means; None where it is not there."""
    found = _row(book, target, id)
    return found.code if found else None


def check_references(new: NewEvent, book: Book) -> None:
    """Raise NotFound where data refer to what is not there, BadInput where that cannot be."""
    for key, target, id in references(new.data):
        found = _row(book, target, id)
        if found is None:
            raise NotFound(f"there is no {numbered(target, id)}")
        if isinstance(found, Animal) and id == new.animal_id:
            raise BadInput(f"{new.kind}: {key} cannot be {found.label} itself")
        if isinstance(found, Clutch) and found.dam_id not in (None, new.animal_id):
            dam = book.animals[found.dam_id or 0]
            raise BadInput(f"{found.label} is of {dam.label}; the event is about another animal")
