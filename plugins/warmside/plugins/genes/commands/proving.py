"""`warmside genes prove`: what further young of a pair would prove."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, BadInput, Unit, parse_quantity, session_of
from warmside.plugins.genes.inheritance.proving import parent_ways
from warmside.plugins.genes.inheritance.settled import settled
from warmside.plugins.genes.reading.family import check_pair, kin_of
from warmside.plugins.genes.telling.clash import clash_words
from warmside.plugins.genes.telling.proving import proof_shown


def prove(
    context: typer.Context,
    animal: Annotated[str, typer.Argument(help="Code or name of the animal.")],
    trait: Annotated[str, typer.Argument(help="The trait that it may carry.")],
    partner: Annotated[str, typer.Option("--with", help="Code or name of its mate.")],
    sure: Annotated[str, typer.Option(help="When it counts as sure: 95%.")] = "95%",
    on: Annotated[str | None, typer.Option(help="As of that day.")] = None,
) -> Answer:
    """What each further young would change, and how many it takes to be sure."""
    share = parse_quantity(sure, Unit.PERCENT, what="--sure") / 100
    if not 0.5 < share < 1:
        raise BadInput(f"--sure is more than 50 % and less than 100 %, not {sure}")
    session = session_of(context)
    with session.ask() as ask:
        one, other = ask.book.animal(animal), ask.book.animal(partner)
        check_pair(one, other)
        day = session.day(on, ask.book)
        known = kin_of(ask, [one, other], day, ()).catalogue.trait(trait)
        kin = kin_of(ask, [one, other], day, (known.locus,))
        labels = {id: ask.book.animals[id].label for id in kin.said}
    found = settled(kin.family, ((one.id, other.id),))
    if found.model is None:
        raise BadInput(next(clash_words(found, labels)))
    ways = parent_ways(found.model, one.id, other.id, known.locus, known.name)
    return proof_shown(one.label, other.label, known.name, ways, share)
