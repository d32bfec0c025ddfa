"""`warmside feeding fed`: record a whole round of meals at once."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Annotated

import typer
from msgspec.structs import replace

from warmside.api import (
    Animal,
    Answer,
    Ask,
    Book,
    Display,
    Doubtful,
    Event,
    Session,
    StepWriter,
    Unit,
    Words,
    parse_quantity,
    recorded,
    session_of,
)
from warmside.plugins.feeding.care.cautions import HANDS, NO_HANDLING, left_alone
from warmside.plugins.feeding.commands.round_of_meals import (
    Typed,
    events,
    left_out,
    planned_words,
    served,
    unsaid,
)
from warmside.plugins.feeding.meals.dishes import check_powder
from warmside.plugins.feeding.prey.classes import known_prey
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.reading.stock import stock
from warmside.plugins.feeding.telling.plan import cautioned
from warmside.plugins.feeding.telling.stock import totals

Names = list[str] | None


def fed(
    context: typer.Context,
    animals: Annotated[
        Names, typer.Argument(help="Codes or names, also with the food: EMB KES=2xrat-pup.")
    ] = None,
    due: Annotated[bool, typer.Option("--due", help="All that are due, as planned.")] = False,
    item: Annotated[
        str | None, typer.Option(help="Prey class for all; else each gets what is planned.")
    ] = None,
    count: Annotated[int | None, typer.Option(help="Pieces for each animal.")] = None,
    each: Annotated[str | None, typer.Option(help="Mass of one piece: 24g.")] = None,
    refused: Annotated[Names, typer.Option("--refused", help="Offered to it, and refused.")] = None,
    part: Annotated[Names, typer.Option("--part", help="It took a part of the meal.")] = None,
    dust: Annotated[
        str | None, typer.Option(help="Powder on insects, or `planned` for the rota's.")
    ] = None,
    at: Annotated[str | None, typer.Option(help="When: yesterday, 08:30.")] = None,
    note: Annotated[str, typer.Option(help="A note.")] = "",
    confirm: Annotated[bool, typer.Option(help="It is right, though it looks odd.")] = False,
) -> Answer:
    """Record the meals of a round in one step; name those that refused."""
    session = session_of(context)
    powder = check_powder(dust) if dust else None

    with session.ask() as ask:
        book, when = ask.book, session.when(at, ask.book)
        grams, who = _each(each, book.home.display), (_ids(book, refused), _ids(book, part))
        typed = Typed(item, count, grams, *who, powder, note)
        lacking = unsaid(Reading(ask, when.day), animals or [], typed, due=due)
        asked = {book.animals[i]: planned_words(dishes) for i, dishes in lacking.items()}
    if asked and not confirm:
        typed = replace(typed, foods=_foods(session, asked))
    with session.step("fed", confirmed=confirm) as writer:
        reading = Reading(session.asking(writer.book), when.day)
        servings = served(reading, animals or [], typed, due=due)
        for event in events(reading, servings, typed, when):
            writer.record(event)
        warnings = left_out(reading, servings) if due else ()
        _say(writer, reading.ask)
    with session.ask() as ask:
        return replace(_told(ask, writer.recorded), warnings=warnings)


def _foods(session: Session, planned: Mapping[Animal, str]) -> dict[int, str]:
    """The foods that the keeper names on a terminal, where they are not what is planned."""
    if not session.asks:
        raise Doubtful("; ".join(_question(a, dish) for a, dish in planned.items()))
    typed = {
        a: typer.prompt(f"What food was it for {a.label}?", planned[a], err=True) for a in planned
    }
    return {a.id: text for a, text in typed.items() if text.strip() != planned[a]}


def _question(animal: Animal, planned: str) -> str:
    example = f"{animal.code}='{planned}'"
    return f"{animal.label}: what food it was is not said; planned is {planned}; name it: {example}"


def _each(text: str | None, display: Display) -> float | None:
    return parse_quantity(text, Unit.MASS, display=display, what="each") if text else None


def _ids(book: Book, names: Names) -> tuple[int, ...]:
    return tuple(book.animal(n).id for n in names or ())


def _say(writer: StepWriter, ask: Ask) -> None:
    made = writer.recorded
    told = [f"{ask.subject_words(e)}: {ask.event_words(e)}" for e in made[:3]]
    writer.say("; ".join([*told, *([f"and {len(made) - 3} more"] if len(made) > 3 else [])]))


def _told(ask: Ask, made: Sequence[Event]) -> Answer:
    """What was recorded, and what is left in stock of it."""
    items = [known_prey(e.data["item"]) for e in made if e.kind == "fed"]
    used = {p.code for p in items if p}
    left = [lot for lot in stock(ask, ask.book.today) if lot.prey in used]
    tables = [totals(left, "Left in stock")] if left else []
    return recorded(ask, made, *tables, *_resting(ask, made), *cautioned((HANDS,)))


def _resting(ask: Ask, made: Sequence[Event]) -> Iterator[Words]:
    """Who is not handled now, since it has eaten."""
    reading = Reading(ask, ask.book.today)
    ate = [e for e in made if e.kind == "fed" and e.data["outcome"] in ("taken", "part taken")]
    kinds = {e.animal_id: reading.species(e.animal_id) for e in ate if e.animal_id}
    resting = [ask.book.animals[i].label for i, kind in kinds.items() if kind and left_alone(kind)]
    if resting:
        yield Words(f"{NO_HANDLING.words}: {', '.join(resting)}")
