"""`warmside genes pair` and `plan`: what a pair can produce, from words or from the record."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Annotated

import typer

from warmside.api import Animal, Answer, BadInput, NotFound, Part, paragraphs, session_of
from warmside.plugins.genes.inheritance.model import Model
from warmside.plugins.genes.inheritance.pairing import carried, offspring
from warmside.plugins.genes.inheritance.settled import settled
from warmside.plugins.genes.reading.family import Kin, check_pair, check_roles, kin_of
from warmside.plugins.genes.telling.bars import bars
from warmside.plugins.genes.telling.clash import clash_words
from warmside.plugins.genes.telling.kinship import kinship_facts
from warmside.plugins.genes.telling.pairing import (
    carried_table,
    harm_words,
    left_out,
    looks_table,
    several,
)
from warmside.plugins.genes.telling.wording import APART, MENDEL
from warmside.plugins.genes.traits.catalogue import Trait
from warmside.plugins.genes.traits.planned import check_young, planned
from warmside.plugins.genes.traits.shipped import shipped_catalogue
from warmside.plugins.genes.traits.words import read_known

OF_RECORD = "warmside genes plan DAM SIRE"
Young = Annotated[int, typer.Option(help="Young in the clutch or litter.")]


def pair(
    context: typer.Context,
    species: Annotated[str, typer.Option(help="Scientific or common name.")],
    dam: Annotated[str, typer.Option(help='Such as "het amelanistic, visual motley".')],
    sire: Annotated[str, typer.Option(help='Such as "66 % het amelanistic".')],
    young: Young = 1,
) -> Answer:
    """The odds of a pairing in words, without a collection; what is not named is not there."""
    check_young(young)
    traits = shipped_catalogue(species)
    try:
        said = read_known(dam, traits), read_known(sire, traits)
    except NotFound as error:
        raise NotFound(f"{error}; then pair them from the record: {OF_RECORD}") from None
    found, carried_by = planned(traits, *said)
    named = {k.trait.name: k.trait for known in said for k in known}
    words = f"{MENDEL.rule[0].upper()}{MENDEL.rule[1:]}. What is not named is taken as not there."
    return Answer(
        f"{dam} × {sire}",
        (
            looks_table(found, young),
            *left_out(found, young),
            bars(found),
            carried_table(carried_by),
            *paragraphs(words),
            *harm_words(named.values()),
        ),
    )


def plan(
    context: typer.Context,
    dam: Annotated[str, typer.Argument(help="Code or name of the dam.")],
    sires: Annotated[list[str], typer.Argument(help="Codes or names of one or more sires.")],
    young: Young = 1,
    on: Annotated[str | None, typer.Option(help="As of that day.")] = None,
) -> Answer:
    """The odds of a pairing from the record, with several sires side by side."""
    check_young(young)
    session = session_of(context)
    with session.ask() as ask:
        mother = ask.book.animal(dam)
        fathers = [ask.book.animal(name) for name in sires]
        for father in fathers:
            check_pair(mother, father)
            check_roles(mother, father)
        kin = kin_of(ask, [mother, *fathers], session.day(on, ask.book))
        found = settled(kin.family, tuple((mother.id, f.id) for f in fathers))
        labels = {id: ask.book.animals[id].label for id in kin.said}
        kinship = tuple(kinship_facts(ask, mother, fathers, session.day(on, ask.book)))
    if found.model is None or found.clash:
        raise BadInput(next(clash_words(found, labels)))
    title = f"{mother.label} × {', '.join(f.label for f in fathers)}"
    odds = _odds(found.model, mother, fathers, young)
    notes = _notes(kin, exact=found.model.is_joint)
    return Answer(title, (*kinship, *odds, *notes, *harm_words(_traits(kin))))


def _odds(model: Model, mother: Animal, fathers: Sequence[Animal], young: int) -> tuple[Part, ...]:
    """What one pair can produce, or several side by side."""
    pairs = [(f.label, offspring(model, mother.id, f.id)) for f in fathers]
    if len(pairs) > 1:
        return (several(pairs, young),)
    first = pairs[0][1]
    return (
        looks_table(first, young),
        *left_out(first, young),
        bars(first),
        carried_table(offspring(model, mother.id, fathers[0].id, carried)),
    )


def _notes(kin: Kin, *, exact: bool) -> tuple[Part, ...]:
    """The rule, what was assumed, and where chances of several traits are not exact."""
    apart = () if exact else (APART,)
    rules = (f"{note[0].upper()}{note[1:]}." for note in (MENDEL.rule, *kin.assumptions))
    return paragraphs(*rules, *apart)


def _traits(kin: Kin) -> Iterable[Trait]:
    """The traits that anyone in the family is said to have."""
    known = (s.known for said in kin.said.values() for s in said)
    return {k.trait.name: k.trait for k in known if k}.values()
