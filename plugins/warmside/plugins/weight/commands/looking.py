"""Looking at weights: `show`, `chart`, `growth`, `condition`."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, BadInput, session_of
from warmside.plugins.weight.reading.condition import pairs_of_species
from warmside.plugins.weight.reading.growth import grown, grown_if_any
from warmside.plugins.weight.reading.standing import standing, standings
from warmside.plugins.weight.telling.chart import chart_of
from warmside.plugins.weight.telling.condition import condition_shown
from warmside.plugins.weight.telling.growth import growth_shown
from warmside.plugins.weight.telling.overview import overview
from warmside.plugins.weight.telling.weight import shown

AnimalName = Annotated[str, typer.Argument(help="Code or name of the animal.")]
OnDay = Annotated[str | None, typer.Option(help="As of that day.")]


def show(
    context: typer.Context,
    animal: Annotated[
        str | None, typer.Argument(help="Code or name of the animal; none means all.")
    ] = None,
    on: OnDay = None,
) -> Answer:
    """The last weight, its centile or own channel, trend, signs and doubts."""
    session = session_of(context)
    with session.ask() as ask:
        day = session.day(on, ask.book)
        if animal is not None:
            return shown(standing(ask, ask.book.animal(animal), day))
        table = overview(standings(ask, ask.book.animals_here(day), day))
    return Answer(f"Weights, as of {day}", (table,))


def chart(
    context: typer.Context,
    animal: AnimalName,
    since: Annotated[str | None, typer.Option(help="From that day on.")] = None,
    on: OnDay = None,
) -> Answer:
    """The weights as a curve with centile or prediction bands, meals and sheds below."""
    session = session_of(context)
    with session.ask() as ask:
        day = session.day(on, ask.book)
        first = session.typed_date(since, ask.book).earliest if since else None
        if first is not None and first > day:
            raise BadInput(f"--since {first} is after {day}; give an earlier day")
        it = standing(ask, ask.book.animal(animal), day)
        parts = chart_of(it, lambda: grown_if_any(ask, it), first)
    return Answer(f"Weight of {it.weights.animal.label}, as of {day}", parts)


def growth(context: typer.Context, animal: AnimalName, on: OnDay = None) -> Answer:
    """The animal's own growth curve: which, how sure, and where growth ends."""
    session = session_of(context)
    with session.ask() as ask:
        it = standing(ask, ask.book.animal(animal), session.day(on, ask.book))
        return growth_shown(it, grown(ask, it))


def condition(
    context: typer.Context,
    animal: AnimalName,
    family: Annotated[
        str | None, typer.Option(help="Family whose length-mass curve is shown beside it.")
    ] = None,
    on: OnDay = None,
) -> Answer:
    """Body condition from length and mass, where lengths to the vent were measured."""
    session = session_of(context)
    with session.ask() as ask:
        subject, day = ask.book.animal(animal), session.day(on, ask.book)
        return condition_shown(pairs_of_species(ask, subject, day), subject, day, family)
