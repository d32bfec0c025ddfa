"""Fields of events that refer to rows of the record: typed as codes, stored as ids."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import partial
from typing import Any, NamedTuple

from warmside.core.kinds.fields import Target, reference_named
from warmside.core.kinds.parsing import Readers
from warmside.core.record.book import Book
from warmside.core.record.entities import NewEvent
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
        lambda text: parse_day(text, book.now, home.zone), partial(id_of, book), home.display
    )


def id_of(book: Book, target: Target, code_or_name: str) -> int:
    """The id of what has that code or name; raises NotFound."""
    return book.animal(code_or_name).id


def label_of(book: Book, target: Target, id: int) -> str:
    """What a reference is called in the keeper's words."""
    animal = book.animals.get(id)
    return animal.label if animal else f"{target.value} number {id}"


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
    animal = book.animals.get(id)
    return animal.code if animal else None


def check_references(new: NewEvent, book: Book) -> None:
    """Raise NotFound where data refer to what is not there, BadInput where to the subject."""
    for reference in references(new.data):
        if reference.id not in book.animals:
            raise NotFound(f"there is no {reference.target.value} number {reference.id}")
        if reference.id == new.animal_id:
            label = book.animals[reference.id].label
            raise BadInput(f"{new.kind}: {reference.key} cannot be {label} itself")
