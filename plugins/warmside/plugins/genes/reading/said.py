"""What was recorded of the genes of animals."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import NamedTuple

from warmside.api import Animal, Book, Event, WarmsideError
from warmside.plugins.genes.kinds import KNOWN
from warmside.plugins.genes.reading.traits import catalogue
from warmside.plugins.genes.traits.words import Known, read_known


class Said(NamedTuple):
    """One trait of an animal as it was recorded; `known` is None where no trait is called so."""

    event: Event
    known: Known | None

    @property
    def locus(self) -> str:
        """The locus of the trait; empty where no trait is called so."""
        return self.known.trait.locus if self.known else ""

    @property
    def evidence(self) -> str:
        """Seen, stated, tested or proven."""
        return str(self.event.data["evidence"])


def said_of_all(book: Book, on: date | None = None) -> Mapping[int, tuple[Said, ...]]:
    """What is on record of each animal up to a day, oldest first."""
    return book.once(("genes", "said", on), lambda: _said_of_all(book, on))


def _said_of_all(book: Book, on: date | None) -> dict[int, tuple[Said, ...]]:
    found: dict[int, list[Said]] = {}
    for event in book.events(KNOWN, until=on):
        animal = book.animals[event.animal_id or 0]
        found.setdefault(animal.id, []).append(Said(event, _known(book, animal, event)))
    return {id: tuple(said) for id, said in found.items()}


def _known(book: Book, animal: Animal, event: Event) -> Known | None:
    try:
        return read_known(str(event.data["says"]), catalogue(book, animal.species))[0]
    except WarmsideError:  # a trait that the keeper has taken out again
        return None
