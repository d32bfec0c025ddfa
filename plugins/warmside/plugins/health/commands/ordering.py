"""The commands that write down a course, and that a vet stopped it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Annotated

import typer

from warmside.api import Answer
from warmside.plugins.health.commands.entering import (
    AnimalName,
    At,
    Confirm,
    Entry,
    Note,
    Whom,
    entered,
)
from warmside.plugins.health.courses.order import STOPPED
from warmside.plugins.health.courses.typed import (
    Data,
    Typed,
    bottle_data,
    course_data,
    feeding_data,
)
from warmside.plugins.health.kinds import BOTTLE, COURSE, FOOD, TREATED
from warmside.plugins.health.reading.courses import running_named
from warmside.plugins.health.telling.courses import AS_ORDERED

Medicine = Annotated[str, typer.Argument(help="The medicine, as the vet wrote it.")]


def order_course(
    context: typer.Context,
    animal: AnimalName,
    medicine: Medicine,
    dose: Annotated[str, typer.Option(help="The dose, as the vet wrote it.")] = "",
    by: Annotated[str, typer.Option(help="The vet who ordered it.")] = "",
    every: Annotated[str, typer.Option(help="12 hours, 3 days, twice a day; else once.")] = "",
    start: Annotated[
        str | None, typer.Option("--from", help="Day of the first dose; else the day of the order.")
    ] = None,
    clock: Annotated[str | None, typer.Option(help="Time of the first dose: 08:00.")] = None,
    until: Annotated[str | None, typer.Option(help="Last day.")] = None,
    doses: Annotated[int | None, typer.Option(help="Number of doses.")] = None,
    counted: Annotated[
        str | None, typer.Option(help='Next dose from the "plan" or from the "last dose".')
    ] = None,
    amount: Annotated[str, typer.Option(help="Amount of one dose: 0.1 ml.")] = "",
    way: Annotated[str, typer.Option(help="By which way: by mouth …")] = "",
    food: Annotated[
        str | None, typer.Option(help='"with food" or "without food"; nothing if not said.')
    ] = None,
    watch: Annotated[str, typer.Option(help="What to watch for.")] = "",
    mass: Annotated[
        str | None, typer.Option(help="Weight that the dose was worked out for.")
    ] = None,
    window: Annotated[str | None, typer.Option(help="How late it may be given: 2h.")] = None,
    bottle: Annotated[str, typer.Option(help="What the bottle holds: 5 ml.")] = "",
    expires: Annotated[str | None, typer.Option(help="Last day of its use.")] = None,
    storage: Annotated[str, typer.Option(help="How to keep it, as on its label.")] = "",
    batch: Annotated[str, typer.Option(help="Its batch.")] = "",
    food_told: Annotated[
        str,
        typer.Option("--feeding", help='"as usual", "no food", or the vet\'s words on its food.'),
    ] = "",
    at: At = None,
    note: Note = "",
    confirm: Confirm = False,
) -> Answer:
    """Write down a course of treatment as a vet ordered it; its doses stand in the round."""
    typed = Typed(
        medicine,
        dose,
        by,
        every,
        start,
        clock,
        until,
        doses,
        counted,
        amount,
        way,
        food,
        watch,
        mass,
        window,
        bottle,
        expires,
        storage,
        batch,
        food_told,
    )
    whom = Whom(animal, at, note, confirm)
    with entered(context, whom, lambda x: f"{medicine} ordered for {x}") as entry:
        for kind, data in _written(entry, typed):
            entry.record(kind, data, noted=kind == COURSE)
    return entry.told(AS_ORDERED)


def _written(entry: Entry, typed: Typed) -> Iterator[tuple[str, Data]]:
    """The kinds of event of an order with their data."""

    def day_of(text: str) -> date:
        return entry.session.typed_day(text, entry.book)

    bottle = bottle_data(typed, day_of)
    yield COURSE, course_data(typed, day_of, entry.book.home.display)
    for kind, data in ((BOTTLE, bottle), (FOOD, feeding_data(typed))):
        if data is not None:
            yield kind, data


def stop_course(
    context: typer.Context,
    animal: AnimalName,
    medicine: Medicine,
    by: Annotated[str, typer.Option(help="The vet who stopped it.")],
    at: At = None,
    note: Annotated[str, typer.Option(help="Why, in the vet's words.")] = "",
) -> Answer:
    """Write down that a vet stopped a course before its end."""
    whom = Whom(animal, at, note)
    with entered(context, whom, lambda x: f"{medicine} stopped for {x}") as entry:
        order = running_named(entry.book, entry.animal, medicine, entry.when.day).order
        entry.record(TREATED, {"what": order.what, "by": by, "outcome": STOPPED})
        entry.writer.say(f"{order.what} stopped for {entry.animal.label}")
    return entry.told()
