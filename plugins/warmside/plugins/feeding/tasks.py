"""The plugin's tasks of a round: animals to feed, and one list of prey to thaw for the next day."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date, timedelta
from typing import Any

from warmside.api import About, Ask, Basis, Task, days_ago_words
from warmside.plugins.feeding.care.cautions import NO_HANDLING, SHORT_THAW, THAW
from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.meals.records import last_meal
from warmside.plugins.feeding.planning.fit import Fit
from warmside.plugins.feeding.planning.next_meal import Plan, due, plan
from warmside.plugins.feeding.planning.subject import Subject
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.reading.noted import is_thawed
from warmside.plugins.feeding.reading.stock import stock
from warmside.plugins.feeding.reading.winter import course_of
from warmside.plugins.feeding.resting.steps import asked
from warmside.plugins.feeding.stock.lots import Lot
from warmside.plugins.feeding.stock.thaw import ThawLine, thaw_list

Planned = tuple[int, Subject, Plan]
THAW_KEY = "thaw"


def tasks(ask: Ask, on: date) -> Iterator[Task]:
    """What is due for all animals here on a day."""
    reading = Reading(ask, on)
    to_feed = due_animals(reading, on)
    lots = stock(ask, on) if to_feed else ()
    for animal_id, subject, found in to_feed:
        yield feeding(reading, animal_id, subject, found, lots)
    yield from thawing(reading, to_feed)
    for animal_id in reading.here():
        course = course_of(reading, animal_id)
        yield from asked(course, on) if course else ()


def due_animals(
    reading: Reading, day: date, without: frozenset[int] = frozenset()
) -> list[Planned]:
    """The animals that may be fed on a day, but those in `without`, with their plans for it."""
    found = []
    for animal_id in reading.here():
        subject = None if animal_id in without else reading.subject(animal_id, ask=False)
        if subject and _is_due(subject, day, reading):
            asked = reading.subject(animal_id)
            assert asked is not None
            planned = plan(asked, day, reading.rules)
            if planned.is_due(day):
                found.append((animal_id, asked, planned))
    return found


def _is_due(subject: Subject, day: date, reading: Reading) -> bool:
    first, _ = due(subject, day, reading.rules)
    return first is not None and first <= day


def feeding(
    reading: Reading, animal_id: int, subject: Subject, found: Plan, lots: tuple[Lot, ...]
) -> Task:
    """The task of feeding one animal, with the meal that settles it as far as it is known."""
    eaten = last_meal(subject.offers)
    best = found.fits[0] if found.fits else None
    last = f"last ate {days_ago_words(eaten.day, reading.on)}" if eaten else "no meal on record"
    basis = found.interval.basis
    events = (eaten.event,) if eaten else ()
    return Task(
        _what(subject, best),
        found.due_from or reading.on,
        Basis(f"{basis.rule}, {last}", basis.source, events),
        About(animal_id),
        settles="fed",
        data=meal_data(best, lots) if best else {},
        note="; ".join(_notes(found, best, reading.rules, reading.on)),
        every_days=round((found.interval.low + found.interval.high) / 2),
        key="meal",
    )


def _what(subject: Subject, best: Fit | None) -> str:
    """`feed 2 × adult mouse`, `feed leafy greens`, or what part of the diet it is."""
    if best is None:
        return f"feed {subject.species.part.name}" if subject.species.diet.parts else "feed"
    return f"feed {best.dish}"


def _notes(found: Plan, best: Fit | None, rules: Rules, on: date) -> Iterator[str]:
    if best is None:
        yield from found.words[:1] if found.mass else ("no weight on record, weigh it first",)
        return
    if not best.prey.insect:
        yield best.each_words(rules) + (" each" if best.count > 1 else "")
    if found.due_by and found.due_by >= on:
        yield f"by {found.due_by.isoformat()}"
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
    newly = due_animals(reading, day, frozenset(i for i, _, _ in to_feed))
    meals = [found.fits[0] for _, _, found in newly if found.fits]
    return thaw_list(meals)


def still_to_thaw(reading: Reading) -> tuple[ThawLine, ...]:
    """The prey of all that is due on the day itself, unless it was thawed."""
    if is_thawed(reading.book, reading.on):
        return ()
    due_now = due_animals(reading, reading.on)
    return thaw_list([found.fits[0] for _, _, found in due_now if found.fits])
