"""A round of meals as it was typed: whom, what of, what came of it, as events to record."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct

from warmside.api import BadInput, NewEvent, When
from warmside.plugins.feeding.kinds import DUSTED
from warmside.plugins.feeding.meals.dishes import PLANNED, Dish, outcome_of, parse_dish
from warmside.plugins.feeding.meals.doubts import questions
from warmside.plugins.feeding.meals.records import Offer
from warmside.plugins.feeding.planning.next_meal import plan
from warmside.plugins.feeding.planning.powders import next_powder
from warmside.plugins.feeding.prey.classes import prey_of_kinds
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.tasks import due_animals

Dishes = Mapping[int, Dish]


class Typed(Struct, frozen=True):
    """What was typed for the whole round; `refused` and `part` are animals."""

    item: str | None
    count: int | None
    each_g: float | None
    refused: tuple[int, ...]
    part: tuple[int, ...]
    powder: str | None
    note: str


def served(reading: Reading, animals: Sequence[str], typed: Typed, *, due: bool) -> Dishes:
    """What each animal was offered: its own, else the one for all, else what is planned.

    Of the animals due, those for which no prey is planned are left out.
    """
    book = reading.book
    both = set(typed.refused) & set(typed.part)
    if both:
        name = book.animals[both.pop()].label
        raise BadInput(f"{name} cannot have refused the meal and taken a part of it")
    named = {book.animal(n).id: text for n, _, text in (a.partition("=") for a in animals)}
    wanted = dict.fromkeys([*named, *typed.refused, *typed.part])
    dishes = {i: _dish(reading, i, named.get(i) or typed.item, typed.count) for i in wanted}
    for id, _, found in due_animals(reading, reading.on) if due else ():
        if id not in dishes and (typed.item or found.fits):
            dishes[id] = _dish(reading, id, typed.item, typed.count)
    if not dishes:
        nothing = "nothing that is due has planned prey; name animals and prey: EMB=mouse-adult"
        raise BadInput(nothing if due else "name the animals, or use --due for all that are due")
    return dishes


def left_out(reading: Reading, dishes: Dishes) -> tuple[str, ...]:
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


def doubts(reading: Reading, dishes: Dishes, typed: Typed) -> list[str]:
    """Meals that need the keeper's word before they are recorded."""
    found = []
    for id, dish in dishes.items():
        weighing = reading.weighing(id)
        offer = Offer(reading.on, dish.prey.code, dish.count, dish.count, typed.each_g)
        mass, girth = weighing.mass_g if weighing else None, reading.girth_mm(id)
        asked = questions(offer, mass, reading.species(id), girth, reading.rules)
        found += [f"{reading.book.animals[id].label}: {question}" for question in asked]
    return found


def events(reading: Reading, dishes: Dishes, typed: Typed, when: When) -> Iterator[NewEvent]:
    """The meals, and the powder on those of insects."""
    for id, dish in dishes.items():
        data = {
            "item": dish.prey.name,
            "count": dish.count,
            "mass_g": None if typed.each_g is None else typed.each_g * dish.count,
            "form": dish.prey.form,
            "outcome": outcome_of(id, typed.refused, typed.part),
        }
        yield NewEvent("fed", when.day, data, animal_id=id, at=when.at, note=typed.note)
    for id, powder in _powders(reading, dishes, typed):
        yield NewEvent(DUSTED, when.day, {"powder": powder}, animal_id=id, at=when.at)


def _powders(reading: Reading, dishes: Dishes, typed: Typed) -> Iterator[tuple[int, str]]:
    if typed.powder is None:
        return
    insects = [i for i, d in dishes.items() if d.prey.insect and i not in typed.refused]
    if not insects:
        raise BadInput("no insects were eaten in this round, so none can be dusted")
    for id in insects:
        powder = _planned(reading, id) if typed.powder == PLANNED else typed.powder
        if powder:
            yield id, powder


def _planned(reading: Reading, animal_id: int) -> str | None:
    """The powder that the plan asks for today; None where none is due or known."""
    subject = reading.subject(animal_id, ask=False)
    dust = next_powder(subject, reading.on) if subject else None
    return dust.code if dust else None
