"""`warmside feeding set` and `drop`: how one animal is fed where it differs from its species."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Animal, Answer, Ask, BadInput, NotFound, StepWriter, Unit, said, session_of
from warmside.plugins.feeding.care.own import Own, parse_hours, parse_prey, parse_span
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.reading.noted import own_feeding
from warmside.plugins.feeding.tables import own
from warmside.plugins.feeding.telling.plan import no_row

Name = Annotated[str, typer.Argument(help="Code or name.")]
UNDO = "warmside undo (take it back)"


def set_own(
    context: typer.Context,
    animal: Name,
    interval: Annotated[str | None, typer.Option(help="Days between meals: 10-14.")] = None,
    meal: Annotated[str | None, typer.Option(help="Percent of body mass: 5-8.")] = None,
    prey: Annotated[str | None, typer.Option(help="Kinds or classes: mouse,rat-pup.")] = None,
    warm_hours: Annotated[
        str | None, typer.Option("--warm-hours", help="Hours a day on the warm side: 10.")
    ] = None,
) -> Answer:
    """Set how one animal is fed; what is not named stays as it is."""
    if not (interval or meal or prey or warm_hours):
        raise BadInput("nothing to set; name what, such as --interval 10-14")
    session = session_of(context)
    with session.step(f"feeding of {animal} set") as writer:
        found = writer.book.animal(animal)
        before = own_feeding(writer.book).get(found.id)
        old = before or Own()
        new = Own(
            parse_span(interval, Unit.DAYS, "interval") if interval else old.interval_days,
            parse_span(meal, Unit.PERCENT, "meal") if meal else old.meal_percent,
            parse_prey(prey) if prey else old.prey,
            parse_hours(warm_hours) if warm_hours else old.warm_hours,
        )
        _check(session.asking(writer.book), found, new)
        _store(writer, found.id, new, known=before is not None)
        words = "; ".join(new.words)
        writer.say(f"feeding {found.label}: {words}")
    return said(f"{found.label} is fed so: {words}", hints=[UNDO])


def _check(ask: Ask, animal: Animal, new: Own) -> None:
    species = Reading(ask, ask.book.today, alone=True).species(animal.id)
    if species is None:
        raise NotFound(no_row(animal.species.scientific))
    new.on(species)


def _store(writer: StepWriter, animal_id: int, new: Own, *, known: bool) -> None:
    days, percent = new.interval_days or (None, None), new.meal_percent or (None, None)
    values = {
        "interval_low": days[0],
        "interval_high": days[1],
        "percent_low": percent[0],
        "percent_high": percent[1],
        "prey": ",".join(new.prey),
        "warm_hours": new.warm_hours,
    }
    if known:
        writer.change(own, {"animal_id": animal_id}, **values)
    else:
        writer.insert(own, animal_id=animal_id, **values)


def drop(context: typer.Context, animal: Name) -> Answer:
    """Feed an animal as its species again."""
    session = session_of(context)
    with session.step(f"feeding of {animal} dropped") as writer:
        found = writer.book.animal(animal)
        if found.id not in own_feeding(writer.book):
            raise NotFound(f"nothing is set for {found.label}; see: warmside feeding plan {animal}")
        writer.remove(own, {"animal_id": found.id})
        writer.say(f"feeding {found.label} as its species")
    return said(f"{found.label} is fed as its species again", hints=[UNDO])
