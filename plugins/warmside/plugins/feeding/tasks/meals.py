"""The plugin's tasks of a round: animals to feed, and what to make ready for the next day."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from typing import Any

from warmside.api import About, Ask, Basis, Task, days_ago_words
from warmside.plugins.feeding.care.cautions import NO_HANDLING
from warmside.plugins.feeding.care.own import spelled
from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.planning.fit import Fit
from warmside.plugins.feeding.planning.whole import PartPlan
from warmside.plugins.feeding.planning.window import NONE_YET
from warmside.plugins.feeding.prey.classes import known_prey
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.reading.due import due_animals
from warmside.plugins.feeding.reading.stock import stock
from warmside.plugins.feeding.reading.winter import course_of
from warmside.plugins.feeding.resting.steps import asked
from warmside.plugins.feeding.stock.lots import Lot
from warmside.plugins.feeding.tasks.making_ready import gut_loading, newly_due, thawing

DAILY = 2
"""What is fed as often is not asked about: it eats today in any case."""


def tasks(ask: Ask, on: date) -> Iterator[Task]:
    """What is due for all animals here on a day."""
    reading = Reading(ask, on)
    to_feed = due_animals(reading, on)
    lots = stock(ask, on) if to_feed else ()
    for animal_id, found in to_feed:
        yield feeding(reading, animal_id, found, lots)
    newly = newly_due(reading, to_feed)
    yield from thawing(reading, newly)
    yield from gut_loading(reading, to_feed, newly)
    for animal_id in reading.here():
        course = course_of(reading, animal_id)
        yield from asked(course, on) if course else ()


def feeding(reading: Reading, animal_id: int, part: PartPlan, lots: tuple[Lot, ...]) -> Task:
    """The task of feeding one part of a diet, with the meal that settles it as far as known."""
    found, eaten = part.plan, part.subject.last_meal
    best = found.fits[0] if found.fits else None
    last = f"last ate {days_ago_words(eaten.day, reading.on)}" if eaten else NONE_YET
    basis = found.interval.basis
    events = (eaten.event,) if eaten else ()
    return Task(
        f"feed {part.words}".strip() + (" (when last?)" if _asks_when(part) else ""),
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


def _asks_when(part: PartPlan) -> bool:
    """Nothing is known of its meals, and it is not fed every day or two in any case."""
    return part.subject.is_unheard and part.plan.interval.high > DAILY


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
    if best.prey.vertebrate or species.group == "snake":
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
