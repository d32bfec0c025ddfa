"""A round of meals as it was typed: whom, what of, what came of it, as events to record."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct

from warmside.api import BadInput, Book, NewEvent, When
from warmside.plugins.feeding.kinds import DUSTED
from warmside.plugins.feeding.meals.dishes import PLANNED, Dish, Likely, outcome_word, parse_dish
from warmside.plugins.feeding.planning.powders import next_powder
from warmside.plugins.feeding.planning.whole import PartPlan, whole_plan
from warmside.plugins.feeding.prey.classes import known_prey
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.reading.due import due_animals


class Serving(Struct, frozen=True):
    """What one animal was given of one food, and what came of it."""

    animal_id: int
    dish: Dish
    outcome: str


class Typed(Struct, frozen=True):
    """What was typed for the whole round; `refused` and `part` are animals.

    `foods` are those of animals of which at first only the outcome was said.
    """

    item: str | None
    count: int | None
    each_g: float | None
    refused: tuple[int, ...]
    part: tuple[int, ...]
    powder: str | None
    note: str
    foods: Mapping[int, str] = {}


def served(
    reading: Reading, animals: Sequence[str], typed: Typed, *, due: bool
) -> tuple[Serving, ...]:
    """What each animal was offered: its own, else the one for all, else what is planned and due.

    Of what is due, parts for which no food is planned are left out.
    """
    book = reading.book
    both = set(typed.refused) & set(typed.part)
    if both:
        name = book.animals[both.pop()].label
        raise BadInput(f"{name} cannot have refused the meal and taken a part of it")
    named = _named(book, animals)
    known = {i for i, _ in named}
    named += [(i, "") for i in dict.fromkeys([*typed.refused, *typed.part]) if i not in known]
    found = [s for i, text in named for s in _servings(reading, i, text, typed)]
    found += _due_servings(reading, {i for i, _ in named}, typed) if due else []
    if not found:
        nothing = "nothing that is due has planned prey; name animals and prey: EMB=mouse-adult"
        raise BadInput(nothing if due else "name the animals, or use --due for all that are due")
    return tuple(found)


def _named(book: Book, animals: Sequence[str]) -> list[tuple[int, str]]:
    """The animals with what was typed behind their names."""
    return [(book.animal(n).id, text) for n, _, text in (a.partition("=") for a in animals)]


def unsaid(
    reading: Reading, animals: Sequence[str], typed: Typed, *, due: bool
) -> dict[int, tuple[Dish, ...]]:
    """The animals of which only the outcome was said, each with the dishes planned for it.

    Who is named bare or with --due gets what is planned: that says what the food was.
    """
    if typed.item:
        return {}
    named = _named(reading.book, animals)
    bare = {i for i, text in named if not outcome_word(text)}
    found = [i for i, text in named if outcome_word(text)]
    found += [] if due else [i for i in (*typed.refused, *typed.part) if i not in bare]
    without = (i for i in dict.fromkeys(found) if i not in typed.foods)
    return {i: tuple(_dishes(reading, i, "", _plans(reading, i), typed.count)) for i in without}


def planned_words(dishes: Sequence[Dish]) -> str:
    """`1 × small rat`, or all that is planned."""
    return " and ".join(dish.words for dish in dishes)


def left_out(reading: Reading, servings: Sequence[Serving]) -> tuple[str, ...]:
    """What is due and was not recorded, since no food is planned for it."""
    fed = {s.animal_id for s in servings}
    missing = [(i, p) for i, p in due_animals(reading, reading.on) if i not in fed or not p.item]
    names = ((reading.book.animals[i].label, p.words or "food") for i, p in missing)
    return tuple(
        f"{who} is due too ({food}), but no prey is planned for it: not recorded"
        for who, food in names
    )


def _servings(reading: Reading, animal_id: int, text: str, typed: Typed) -> Iterator[Serving]:
    """What was typed for one animal: a food, or only what came of what is planned."""
    came = outcome_word(text)
    said = "" if came else text
    wanted = said or typed.foods.get(animal_id, "") or typed.item or ""
    plans = _plans(reading, animal_id)
    for dish in _dishes(reading, animal_id, wanted, plans, typed.count):
        yield Serving(animal_id, dish, came or _outcome(animal_id, typed))


def _due_servings(reading: Reading, but: set[int], typed: Typed) -> list[Serving]:
    """The parts that are due, as planned, of the animals that were not named."""
    rest = [(i, p) for i, p in due_animals(reading, reading.on) if i not in but]
    if typed.item:
        ids = dict.fromkeys(i for i, _ in rest)
        return [s for i in ids for s in _servings(reading, i, typed.item, typed)]
    return [Serving(i, _planned(p, typed.count), _outcome(i, typed)) for i, p in rest if p.item]


def _dishes(
    reading: Reading, animal_id: int, text: str, plans: Sequence[PartPlan], count: int | None
) -> Iterator[Dish]:
    if text:
        said = text.lower().strip()
        named = next((p for p in plans if p.subject.species.part.name == said), None)
        if named is not None and named.item and known_prey(text) is None:
            yield _planned(named, count)
        else:
            yield parse_dish(text, reading.book.home.display, _likely(plans), count)
        return
    now = [p for p in plans if p.item and p.plan.is_due(reading.on)]
    chosen = now or [p for p in plans[:1] if p.item]
    if not chosen:
        animal = reading.book.animals[animal_id]
        example = next((p.code for s in plans for p in s.subject.species.part.classes()), "ITEM")
        raise BadInput(
            f"no prey is planned for {animal.label}; name it, such as {animal.code}={example}"
        )
    yield from (_planned(p, count) for p in chosen)


def _planned(part: PartPlan, count: int | None) -> Dish:
    """The dish that the plan of a part asks for; a portion by weight in the middle of its range."""
    best = part.plan.fits[0] if part.plan.fits else None
    if best is None:
        return Dish(part.item, known_prey(part.item), 1)
    if best.prey.weighed:
        return Dish(best.prey.name, best.prey, 1)
    return Dish(best.prey.name, best.prey, best.count if count is None else count)


def _plans(reading: Reading, animal_id: int) -> tuple[PartPlan, ...]:
    subject = reading.subject(animal_id)
    return whole_plan(subject, reading.on, reading.rules) if subject else ()


def _likely(plans: Sequence[PartPlan]) -> Likely:
    """What a vague word may mean: what it ate, the newest first, then what is planned."""
    offers = [o for part in plans for o in part.subject.offers if not o.refused]
    newest = sorted(offers, key=lambda o: o.day, reverse=True)
    eaten = tuple(p for o in newest if (p := known_prey(o.prey)))
    return Likely(eaten, tuple(fit.prey for part in plans for fit in part.plan.fits))


def _outcome(animal_id: int, typed: Typed) -> str:
    """What came of the meal of an animal."""
    if animal_id in typed.refused:
        return "refused"
    return "part taken" if animal_id in typed.part else "taken"


def events(
    reading: Reading, servings: Sequence[Serving], typed: Typed, when: When
) -> Iterator[NewEvent]:
    """The meals, and the powder on those of insects."""
    for serving in servings:
        dish = serving.dish
        each = None if typed.each_g is None else typed.each_g * dish.count
        data = {
            "item": dish.item,
            "count": dish.count,
            "mass_g": dish.mass_g if dish.mass_g is not None else each,
            "form": dish.form,
            "outcome": serving.outcome,
        }
        yield NewEvent("fed", when.day, data, serving.animal_id, at=when.at, note=typed.note)
    for id, powder in _powders(reading, servings, typed):
        yield NewEvent(DUSTED, when.day, {"powder": powder}, animal_id=id, at=when.at)


def _powders(
    reading: Reading, servings: Sequence[Serving], typed: Typed
) -> Iterator[tuple[int, str]]:
    if typed.powder is None:
        return
    eaten = [s for s in servings if s.outcome != "refused" and s.dish.prey and s.dish.prey.insect]
    insects = dict.fromkeys(s.animal_id for s in eaten)
    if not insects:
        raise BadInput("no insects were eaten in this round, so none can be dusted")
    for id in insects:
        powder = _planned_powder(reading, id) if typed.powder == PLANNED else typed.powder
        if powder:
            yield id, powder


def _planned_powder(reading: Reading, animal_id: int) -> str | None:
    """The powder that the plan asks for today; None where none is due or known."""
    subject = reading.subject(animal_id, ask=False)
    dust = next_powder(subject, reading.on) if subject else None
    return dust.code if dust else None
