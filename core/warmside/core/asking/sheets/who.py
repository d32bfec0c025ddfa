"""Who an animal is, in the few facts that a stranger needs."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.core.answers.parts import Fact, Kind
from warmside.core.asking.ask import Ask
from warmside.core.asking.subjects.cards import age
from warmside.core.record.entities import Animal
from warmside.core.values.about import About

IDENTIFIER = ".identifier"
"""The end of the key of a label line that says by what mark or number an animal is known."""


GENES = ("genes", "known")


def who(ask: Ask, animal: Animal, on: date) -> Iterator[Fact]:
    """Species, sex, age, origin, since when it is here, marks and numbers, the keeper's note."""
    where = ask.book.whereabouts(on)[animal.id]
    stays = ask.book.whereabouts_history(animal.id, on)
    facts = (
        Fact("species", "species", species_words(animal)),
        Fact("sex", "sex", sex_words(animal)),
        age(animal, where, on),
        Fact("origin", "origin", animal.origin or None),
        Fact("here_since", "here since", stays[0].since if stays else None, Kind.DATE),
        Fact("identifiers", "marks and numbers", "; ".join(identifiers(ask, animal, on)) or None),
        Fact("note", "note", animal.note or None),
    )
    yield from (fact for fact in facts if fact.value is not None)


def genes(ask: Ask, animal: Animal, on: date) -> Iterator[Fact]:
    """What the animal is recorded to carry, as it stands on labels."""
    lines = ask.label_lines(About(animal.id), on)
    known = [line.text for line in lines if line.key.rpartition(".")[2] in GENES]
    if known:
        yield Fact("genes", "genes, as recorded", "; ".join(known))


def species_words(animal: Animal) -> str:
    """`Python regius (ball python)`, or the scientific name alone."""
    found = animal.species
    return f"{found.scientific} ({found.common})" if found.common else found.scientific


def sex_words(animal: Animal) -> str:
    """`female (probed)`, or the sex alone where nobody said how it is known."""
    known = animal.sex_known_by
    return animal.sex if known == "not known" else f"{animal.sex} ({known})"


def identifiers(ask: Ask, animal: Animal, on: date) -> list[str]:
    """By what marks and numbers the animal is known, as plugins give them for labels."""
    lines = ask.label_lines(About(animal.id), on)
    return [line.text for line in lines if line.key.endswith(IDENTIFIER)]
