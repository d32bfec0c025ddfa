"""`warmside feeding fed`: record a whole round of meals at once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Annotated

import typer

from warmside.api import (
    Answer,
    BadInput,
    Book,
    Column,
    Event,
    NewEvent,
    Refused,
    Session,
    Table,
    Tone,
    Unit,
    When,
    Words,
    parse_quantity,
    session_of,
)
from warmside.core.asking.telling import event_words, subject_words
from warmside.core.record.typed_subjects import typed_subjects
from warmside.plugins.feeding.cautions import HANDS
from warmside.plugins.feeding.commands.stock import totals
from warmside.plugins.feeding.due import due_animals, form_of
from warmside.plugins.feeding.kinds import DUSTED
from warmside.plugins.feeding.meal_check import questions
from warmside.plugins.feeding.plan import next_powder, plan
from warmside.plugins.feeding.plan_told import cautioned
from warmside.plugins.feeding.prey import known_prey, prey_of_kinds
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.records import Offer
from warmside.plugins.feeding.served import PLANNED, Dish, check_powder, outcome_of, parse_dish
from warmside.plugins.feeding.stock_rows import stock

RECORDED_COLUMNS = (
    Column("event", "event", Unit.COUNT),
    Column("subject", "who"),
    Column("what", "what"),
)


@dataclass(frozen=True, slots=True)
class Typed:
    """What was typed for the whole round."""

    item: str | None
    count: int | None
    each_g: float | None
    refused: tuple[int, ...]
    part: tuple[int, ...]
    powder: str | None
    note: str


def fed(
    context: typer.Context,
    animals: Annotated[
        list[str] | None,
        typer.Argument(help="Codes or names, also with the prey: EMB KES=2xrat-pup."),
    ] = None,
    due: Annotated[bool, typer.Option("--due", help="All that are due, as planned.")] = False,
    item: Annotated[
        str | None, typer.Option(help="Prey class for all; else each gets what is planned.")
    ] = None,
    count: Annotated[int | None, typer.Option(help="Pieces for each animal.")] = None,
    each: Annotated[str | None, typer.Option(help="Mass of one piece: 24g.")] = None,
    refused: Annotated[
        list[str] | None, typer.Option("--refused", help="Offered to it, and refused.")
    ] = None,
    part: Annotated[
        list[str] | None, typer.Option("--part", help="It took a part of the meal.")
    ] = None,
    dust: Annotated[
        str | None, typer.Option(help="Powder on insects, or `planned` for the rota's.")
    ] = None,
    at: Annotated[str | None, typer.Option(help="When: yesterday, 08:30.")] = None,
    note: Annotated[str, typer.Option(help="A note.")] = "",
    confirm: Annotated[
        bool, typer.Option("--confirm", help="It is right, though it looks odd.")
    ] = False,
) -> Answer:
    """Record the meals of a round in one step; name those that refused."""
    session = session_of(context)
    with session.step("fed", confirmed=confirm) as writer:
        book = writer.book
        when = session.when(at, book)
        reading = Reading(book, when.day)
        typed = Typed(
            item,
            count,
            parse_quantity(each, Unit.MASS, display=book.home.display, what="each")
            if each
            else None,
            _ids(book, refused),
            _ids(book, part),
            check_powder(dust) if dust else None,
            note,
        )
        dishes = served(reading, animals or [], typed, due=due)
        asked = [] if confirm else list(_doubts(reading, dishes, typed))
        if asked:
            raise Refused(f"{'; '.join(asked)}; if it is right, add --confirm")
        new = [*_events(dishes, typed, when), *_dusting(reading, dishes, typed, when)]
        for event in new:
            writer.record(event)
        writer.say(_step_words(book, writer.recorded))
        warnings = left_out(reading, dishes) if due else ()
    return _told(session, writer.recorded, warnings)


def _ids(book: Book, names: Sequence[str] | None) -> tuple[int, ...]:
    return tuple(book.animal(n).id for n in names or ())


def served(reading: Reading, animals: Sequence[str], typed: Typed, *, due: bool) -> dict[int, Dish]:
    """What each animal was offered: its own, else the one for all, else what is planned.

    Of the animals due, those for which no prey is planned are left out.
    """
    book = reading.book
    both = set(typed.refused) & set(typed.part)
    if both:
        name = book.animals[both.pop()].label
        raise BadInput(f"{name} cannot have refused the meal and taken a part of it")
    named = {book.animal(s.name).id: s.value for s in typed_subjects(animals)}
    wanted = dict.fromkeys([*named, *typed.refused, *typed.part])
    dishes = {i: _dish(reading, i, named.get(i) or typed.item, typed.count) for i in wanted}
    for id, _, found in due_animals(reading, reading.on) if due else ():
        if id not in dishes and (typed.item or found.fits):
            dishes[id] = _dish(reading, id, typed.item, typed.count)
    if not dishes:
        nothing = "nothing that is due has planned prey; name animals and prey: EMB=mouse-adult"
        raise BadInput(nothing if due else "name the animals, or use --due for all that are due")
    return dishes


def left_out(reading: Reading, dishes: dict[int, Dish]) -> tuple[str, ...]:
    """Animals that are due and were not recorded, since no prey is planned for them."""
    missing = [i for i, _, _ in due_animals(reading, reading.on) if i not in dishes]
    return tuple(
        f"{reading.book.animals[i].label} is due too, but no prey is planned for it: not recorded"
        for i in missing
    )


def _dish(reading: Reading, animal_id: int, text: str | None, count: int | None) -> Dish:
    if text:
        return parse_dish(text, count)
    animal, subject = reading.book.animals[animal_id], reading.subject(animal_id)
    fits = plan(subject, reading.on, reading.rules).fits if subject else ()
    if not fits:
        kinds = subject.species.prey if subject else ("mouse",)
        example = prey_of_kinds(kinds[:1])[0].code
        raise BadInput(
            f"no prey is planned for {animal.label}; name it, such as {animal.code}={example}"
        )
    return Dish(fits[0].prey, count if count is not None else fits[0].count)


def _doubts(reading: Reading, dishes: dict[int, Dish], typed: Typed) -> Iterator[str]:
    for id, dish in dishes.items():
        weighing = reading.weighing(id)
        offer = Offer(reading.on, dish.prey.code, dish.count, dish.count, typed.each_g)
        mass, girth = weighing.mass_g if weighing else None, reading.girth_mm(id)
        for question in questions(offer, mass, reading.species(id), girth, reading.rules):
            yield f"{reading.book.animals[id].label}: {question}"


def _events(dishes: dict[int, Dish], typed: Typed, when: When) -> Iterator[NewEvent]:
    for id, dish in dishes.items():
        data = {
            "item": dish.prey.name,
            "count": dish.count,
            "mass_g": None if typed.each_g is None else typed.each_g * dish.count,
            "form": form_of(dish.prey),
            "outcome": outcome_of(id, typed.refused, typed.part),
        }
        yield NewEvent("fed", when.day, data, animal_id=id, at=when.at, note=typed.note)


def _dusting(
    reading: Reading, dishes: dict[int, Dish], typed: Typed, when: When
) -> Iterator[NewEvent]:
    if typed.powder is None:
        return
    insects = [i for i, d in dishes.items() if d.prey.insect and i not in typed.refused]
    if not insects:
        raise BadInput("no insects were eaten in this round, so none can be dusted")
    for id in insects:
        powder = typed.powder
        if powder == PLANNED:
            powder = next_powder(reading.meals(id).offers).code
        yield NewEvent(DUSTED, when.day, {"powder": powder}, animal_id=id, at=when.at)


def _step_words(book: Book, events: Sequence[Event]) -> str:
    told = [f"{subject_words(book, e)}: {event_words(book, e)}" for e in events[:3]]
    more = [f"and {len(events) - 3} more"] if len(events) > 3 else []
    return "; ".join([*told, *more])


def _told(session: Session, events: Sequence[Event], warnings: tuple[str, ...]) -> Answer:
    with session.read() as book:
        rows = tuple((e.id, subject_words(book, e), event_words(book, e)) for e in events)
        items = [known_prey(e.data["item"]) for e in events if e.kind == "fed"]
        used = {p.code for p in items if p}
        left = [lot for lot in stock(book, book.today) if lot.prey in used]
    parts = [Table("recorded", RECORDED_COLUMNS, rows, "Recorded")]
    if left:
        parts.append(totals(left, "Left in stock"))
    hint = Words("warmside undo (take it back)", Tone.HINT)
    return Answer(parts=(*parts, hint, *cautioned((HANDS,))), warnings=warnings)
