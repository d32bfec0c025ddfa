"""Tasks of the evening before a round: prey to thaw, live feeders to feed well."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from datetime import date, timedelta

from warmside.api import Basis, Task
from warmside.plugins.feeding.care.cautions import GUT_LOAD, SHORT_GUT_LOAD, SHORT_THAW, THAW
from warmside.plugins.feeding.planning.whole import PartPlan
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.reading.due import Planned, due_animals
from warmside.plugins.feeding.reading.noted import is_gut_loaded, is_thawed
from warmside.plugins.feeding.stock.thaw import ThawLine, thaw_list

THAW_KEY, GUT_LOAD_KEY = "thaw", "gut-load"


def newly_due(reading: Reading, to_feed: list[Planned]) -> list[Planned]:
    """What only the next day's round asks for: what is due already belongs to the one before."""
    without = defaultdict[int, set[str]](set)
    for animal_id, part in to_feed:
        without[animal_id].add(part.key)
    return due_animals(reading, reading.on + timedelta(days=1), without)


def thawing(reading: Reading, newly: list[Planned]) -> Iterator[Task]:
    """One task for the evening: the prey that only the next day's round asks for."""
    day = reading.on + timedelta(days=1)
    lines = to_thaw(reading, newly)
    if lines:
        whose = _animals(sum(line.animals for line in lines))
        yield Task(
            "thaw prey for tomorrow",
            reading.on,
            Basis(f"{', '.join(x.words for x in lines)} for {whose} on {day}", THAW.source),
            data={"form": "thawed"},
            command="warmside feeding thaw --done",
            key=THAW_KEY,
            note=SHORT_THAW,
            keepers=True,
        )


def gut_loading(reading: Reading, to_feed: list[Planned], newly: list[Planned]) -> Iterator[Task]:
    """One task for a batch of live feeders: to feed them well a day before.

    Quiet where insects are offered on the day itself, too: that batch is fed already.
    """
    day = reading.on + timedelta(days=1)
    if any(_is_live(p) for _, p in to_feed) or is_gut_loaded(reading.book, day):
        return
    eaters = [(i, p) for i, p in newly if _is_live(p)]
    if eaters:
        dishes = ", ".join(dict.fromkeys(p.words for _, p in eaters))
        whose = _animals(len({i for i, _ in eaters}))
        yield Task(
            "feed the live insects for tomorrow",
            reading.on,
            Basis(f"{dishes} for {whose} on {day}", GUT_LOAD.source),
            key=GUT_LOAD_KEY,
            note=SHORT_GUT_LOAD,
            keepers=True,
        )


def _is_live(part: PartPlan) -> bool:
    """It is offered insects, as far as can be said."""
    if part.plan.fits:
        return part.plan.fits[0].prey.insect
    return any(food.insect for food in part.subject.species.part.classes())


def _animals(count: int) -> str:
    return "1 animal" if count == 1 else f"{count} animals"


def thawed_for(task: Task) -> date | None:
    """The round whose prey a task asks to thaw; None for another task."""
    return task.due + timedelta(days=1) if task.key == THAW_KEY else None


def thawed_words(day: date) -> str:
    """What was done, once the prey for the round of a day is out."""
    return f"prey for {day} taken out of the freezer"


def gut_loaded_for(task: Task) -> date | None:
    """The round whose live feeders a task asks to feed; None for another task."""
    return task.due + timedelta(days=1) if task.key == GUT_LOAD_KEY else None


def gut_loaded_words(day: date) -> str:
    """What was done, once the feeders for the round of a day are fed."""
    return f"live insects for {day} fed well"


def to_thaw(reading: Reading, newly: list[Planned]) -> tuple[ThawLine, ...]:
    """The prey for the round of the next day, unless it was thawed."""
    if is_thawed(reading.book, reading.on + timedelta(days=1)):
        return ()
    return thaw_list([p.plan.fits[0] for _, p in newly if p.plan.fits])


def still_to_thaw(reading: Reading) -> tuple[ThawLine, ...]:
    """The prey of all that is due on the day itself, unless it was thawed."""
    if is_thawed(reading.book, reading.on):
        return ()
    due_now = due_animals(reading, reading.on)
    return thaw_list([p.plan.fits[0] for _, p in due_now if p.plan.fits])
