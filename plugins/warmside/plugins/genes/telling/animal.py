"""What is known of one animal's genes, and what follows from it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from warmside.api import Animal, Answer, Cell, Column, Kind, Part, Table, Tone, Unit, paragraphs
from warmside.plugins.genes.inheritance.copies import copies
from warmside.plugins.genes.inheritance.settled import Settled
from warmside.plugins.genes.reading.family import Kin
from warmside.plugins.genes.reading.said import Said
from warmside.plugins.genes.telling.clash import clash_words, disproved_words
from warmside.plugins.genes.telling.wording import MENDEL, NO_VERDICT, percent
from warmside.plugins.genes.traits.catalogue import Trait

COLUMNS = (
    Column("trait", "trait"),
    Column("said", "recorded"),
    Column("none", "no copy"),
    Column("one", "one copy"),
    Column("two", "two copies"),
    Column("no_copy", "no copy", Unit.PROBABILITY, text=False),
    Column("one_copy", "one copy", Unit.PROBABILITY, text=False),
    Column("two_copies", "two copies", Unit.PROBABILITY, text=False),
    Column("events", "events", Kind.LIST, text=False),
)

EVIDENCE = (
    "Behind each stands how it is known: seen on the animal, stated by somebody, proven by young, "
    "or tested by a laboratory."
)
NO_PROMISE = (
    "The chances follow by Mendel's rules from the family as it is on record, and are no promise: "
    "a parent that was not the parent changes them all."
)


def shown(animal: Animal, kin: Kin, found: Settled, labels: Mapping[int, str]) -> Answer:
    """The traits of an animal: what was recorded, and the chances that follow."""
    parts: list[Part] = [traits_table(animal, kin, found)]
    against = (*clash_words(found, labels), *disproved_words(found, labels))
    parts += paragraphs(*against, tone=Tone.CAUTION)
    parts += paragraphs(*_sentences((MENDEL.rule, *kin.assumptions)))
    parts += paragraphs(NO_VERDICT, tone=Tone.CAUTION)
    return Answer(f"Genes of {animal.label}", tuple(parts))


def handed_over(animal: Animal, kin: Kin, found: Settled) -> tuple[Part, ...]:
    """The traits of an animal with their evidence, for its next owner."""
    return (traits_table(animal, kin, found), *paragraphs(EVIDENCE), *paragraphs(NO_PROMISE))


def _sentences(texts: Iterable[str]) -> Iterator[str]:
    return (f"{text[0].upper()}{text[1:]}." for text in texts)


def traits_table(animal: Animal, kin: Kin, found: Settled) -> Table:
    """A row a trait of which anything is known in the family."""
    rows = tuple(_row(animal, t, kin, found) for t in _traits(kin))
    return Table("traits", COLUMNS, rows, empty="nothing is recorded of the genes of its family")


def _traits(kin: Kin) -> list[Trait]:
    """The traits that anyone in the family is said to have."""
    known = [s.known.trait for said in kin.said.values() for s in said if s.known]
    return sorted({t.name: t for t in known}.values(), key=lambda t: t.name.casefold())


def _row(animal: Animal, trait: Trait, kin: Kin, found: Settled) -> tuple[Cell, ...]:
    said = [s for s in kin.said.get(animal.id, ()) if s.known and s.known.trait.name == trait.name]
    events = tuple(s.event.id for s in said)
    words = "; ".join(map(said_words, said)) or None
    if found.model is None or not found.knows(trait.locus):
        return (trait.name, words, None, None, None, None, None, None, events)
    chances = copies(found.model.genotypes(animal.id, trait.locus), trait.name)
    return (trait.name, words, *map(percent, chances), *chances, events)


def said_words(said: Said) -> str:
    """What was recorded and how it is known: `66 % het piebald (stated)`."""
    words = said.known.words if said.known else str(said.event.data["says"])
    return f"{words} ({said.evidence})"
