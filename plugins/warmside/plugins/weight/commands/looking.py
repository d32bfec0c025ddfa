"""Looking at weights: `show`, `chart`, `growth`, `condition`."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, BadInput, parse_day, session_of

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
    from warmside.plugins.weight import overview, telling

    session = session_of(context)
    with session.read() as book:
        day = session.day(on, book)
        if animal is None:
            return overview.overview(book, day)
        return telling.shown(book, book.animal(animal), day)


def chart(
    context: typer.Context,
    animal: AnimalName,
    since: Annotated[str | None, typer.Option(help="From that day on.")] = None,
    on: OnDay = None,
) -> Answer:
    """The weights as a curve with centile or prediction bands, meals and sheds below."""
    from warmside.plugins.weight.chart_drawn import chart_of
    from warmside.plugins.weight.reading import whole
    from warmside.plugins.weight.stored import held

    session = session_of(context)
    with session.read() as book:
        day = session.day(on, book)
        first = parse_day(since, session.now, book.home.zone) if since else None
        if first is not None and first > day:
            raise BadInput(f"--since {first} is after {day}; give an earlier day")
        subject = book.animal(animal)
        parts = chart_of(
            whole(book, subject.id, day), held(book, subject), day, book.home.display, first
        )
    return Answer(f"Weight of {subject.label}, as of {day}", parts)


def growth(context: typer.Context, animal: AnimalName, on: OnDay = None) -> Answer:
    """The animal's own growth curve: which, how sure, and where growth ends."""
    from warmside.plugins.weight.growth_told import growth_shown
    from warmside.plugins.weight.reading import whole

    session = session_of(context)
    with session.read() as book:
        day = session.day(on, book)
        weights = whole(book, book.animal(animal).id, day)
        return growth_shown(weights, day, book.home.display)


def condition(
    context: typer.Context,
    animal: AnimalName,
    family: Annotated[
        str | None, typer.Option(help="Family whose length-mass curve is shown beside it.")
    ] = None,
    on: OnDay = None,
) -> Answer:
    """Body condition from length and mass, where lengths to the vent were measured."""
    from warmside.plugins.weight.condition_told import condition_shown

    session = session_of(context)
    with session.read() as book:
        return condition_shown(book, book.animal(animal), session.day(on, book), family)
