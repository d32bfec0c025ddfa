"""The plugin's tasks of a round: animals to feed, and one list of prey to thaw for the next day."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date, timedelta
from typing import Any

from warmside.api import About, Ask, Basis, Task, days_ago_words
from warmside.plugins.feeding.care.cautions import NO_HANDLING, SHORT_THAW, THAW
from warmside.plugins.feeding.care.own import spelled
from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.meals.records import last_meal
from warmside.plugins.feeding.planning.fit import Fit
from warmside.plugins.feeding.planning.whole import PartPlan, due_parts, whole_plan
from warmside.plugins.feeding.prey.classes import known_prey
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.reading.noted import is_thawed
from warmside.plugins.feeding.reading.stock import stock
from warmside.plugins.feeding.reading.winter import course_of
from warmside.plugins.feeding.resting.steps import asked
from warmside.plugins.feeding.stock.lots import Lot
from warmside.plugins.feeding.stock.thaw import ThawLine, thaw_list

Planned = tuple[int, PartPlan]
Parts = frozenset[tuple[int, str]]
THAW_KEY = "thaw"


def tasks(ask: Ask, on: date) -> Iterator[Task]:
    """What is due for all animals here on a day."""
    reading = Reading(ask, on)
    to_feed = due_animals(reading, on)
    lots = stock(ask, on) if to_feed else ()
    for animal_id, found in to_feed:
        yield feeding(reading, animal_id, found, lots)
    yield from thawing(reading, to_feed)
    for animal_id in reading.here():
        course = course_of(reading, animal_id)
        yield from asked(course, on) if course else ()


def due_animals(reading: Reading, day: date, without: Parts = frozenset()) -> list[Planned]:
    """The parts of diets that may be fed on a day, but those in `without`, with their plans."""
    found = list[Planned]()
    for animal_id in reading.here():
        quick = reading.subject(animal_id, ask=False)
        keys = due_parts(quick, day, reading.rules) if quick else ()
        if any((animal_id, key) not in without for key in keys):
            asked = reading.subject(animal_id)
            assert asked is not None
            plans = whole_plan(asked, day, reading.rules)
            found += [
                (animal_id, p)
                for p in plans
                if (animal_id, p.key) not in without and p.plan.is_due(day)
            ]
    return found


def feeding(reading: Reading, animal_id: int, part: PartPlan, lots: tuple[Lot, ...]) -> Task:
    """The task of feeding one part of a diet, with the meal that settles it as far as known."""
    found, eaten = part.plan, last_meal(part.subject.offers)
    best = found.fits[0] if found.fits else None
    last = f"last ate {days_ago_words(eaten.day, reading.on)}" if eaten else "no meal on record"
    basis = found.interval.basis
    events = (eaten.event,) if eaten else ()
    return Task(
        f"feed {part.words}".strip(),
        found.due_from or reading.on,
        Basis(f"{basis.rule}, {last}", basis.source, events),
        About(animal_id),
        settles="fed",
        data=meal_data(best, lots) if best else item_data(part.item or part.part_said),
        note="; ".join(_notes(part, best, reading.rules)),
        every_days=round((found.interval.low + found.interval.high) / 2),
        key=f"meal.{part.key}",
        by=found.due_by,
    )


def item_data(item: str) -> Mapping[str, Any]:
    """The data of a meal of which only the food is known."""
    prey = known_prey(item)
    return {"item": item, "form": prey.form if prey else None} if item else {}


def _notes(part: PartPlan, best: Fit | None, rules: Rules) -> Iterator[str]:
    found, species = part.plan, part.subject.species
    if best is None:
        unweighed = found.mass is None and species.part.percent
        yield from ("no weight on record, weigh it first",) if unweighed else found.words[:1]
        if found.dust:
            yield f"dust: {found.dust.name}"
        return
    feeds = species.part.feeds_at(part.subject.stage)
    if feeds[1] > 1:
        yield f"in {spelled(feeds)} feeds"
    if not best.prey.insect:
        yield best.each_words(rules) + (" each" if best.count > 1 else "")
    if best.prey.vertebrate:
        yield NO_HANDLING.words
    if found.dust:
        yield f"dust: {found.dust.name}"
    yield from (w.words for w in found.waits)
    if found.mass and found.mass.stale:
        yield "its weight is stale, weigh it"


def meal_data(best: Fit, lots: tuple[Lot, ...]) -> Mapping[str, Any]:
    """The data of the meal; its mass only where an item of the stock was weighed."""
    data = {"item": best.prey.name, "count": best.count, "form": best.prey.form}
    same = [lot for lot in lots if lot.prey == best.prey.code]
    oldest = min(same, key=lambda lot: (lot.day, lot.id), default=None)
    if oldest and oldest.each_g and oldest.count >= best.count:
        data["mass_g"] = oldest.each_g * best.count
    return data


def thawing(reading: Reading, to_feed: list[Planned]) -> Iterator[Task]:
    """One task for the evening: the prey that only the next day's round asks for."""
    day = reading.on + timedelta(days=1)
    lines = to_thaw(reading, to_feed)
    if lines:
        animals = sum(line.animals for line in lines)
        whose = "1 animal" if animals == 1 else f"{animals} animals"
        yield Task(
            "thaw prey for tomorrow",
            reading.on,
            Basis(f"{', '.join(x.words for x in lines)} for {whose} on {day}", THAW.source),
            command="warmside feeding thaw --done",
            key=THAW_KEY,
            note=SHORT_THAW,
        )


def thawed_for(task: Task) -> date | None:
    """The round whose prey a task asks to thaw; None for another task."""
    return task.due + timedelta(days=1) if task.key == THAW_KEY else None


def thawed_words(day: date) -> str:
    """What was done, once the prey for the round of a day is out."""
    return f"prey for {day} taken out of the freezer"


def to_thaw(reading: Reading, to_feed: list[Planned]) -> tuple[ThawLine, ...]:
    """The prey for the round of the next day, unless it was thawed.

    What is due already belongs to the round before: its prey is out, or is thawed by its own list.
    """
    day = reading.on + timedelta(days=1)
    if is_thawed(reading.book, day):
        return ()
    newly = due_animals(reading, day, frozenset((i, p.key) for i, p in to_feed))
    meals = [p.plan.fits[0] for _, p in newly if p.plan.fits]
    return thaw_list(meals)


def still_to_thaw(reading: Reading) -> tuple[ThawLine, ...]:
    """The prey of all that is due on the day itself, unless it was thawed."""
    if is_thawed(reading.book, reading.on):
        return ()
    due_now = due_animals(reading, reading.on)
    return thaw_list([p.plan.fits[0] for _, p in due_now if p.plan.fits])
