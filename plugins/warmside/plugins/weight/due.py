"""The task to weigh an animal."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import Animal, Basis, Book, Event, Mark, Source, Task, days_ago_words
from warmside.plugins.weight.ages import greatest_age, stage_on
from warmside.plugins.weight.rhythm import due_day, interval

CUSTOM = Source("keepers' custom, or the keeper's setting", Mark.COMMON_PRACTICE)


def tasks(book: Book, on: date) -> Iterator[Task]:
    """The animals here whose weighing is due, each by its life stage."""
    last = book.latest("weighed", "cooling", on=on)
    settings = book.settings("weight")
    for animal_id, where in book.animals_here(on).items():
        weighed, cooling = (last[kind].get(animal_id) for kind in ("weighed", "cooling"))
        cooled = cooling is not None and cooling.data["state"] == "begun"
        days, whom = _interval(book.animals[animal_id], cooled, settings, on)
        due = due_day(days, weighed.day if weighed else None, where.since)
        if days and due <= on:
            events = (weighed.id,) if weighed else ()
            yield Task(
                "weigh",
                due,
                Basis(f"every {days} days {whom}, {_last(weighed, on)}", CUSTOM, events),
                animal_id=animal_id,
                settles="weighed",
                every_days=days,
            )


def _interval(
    animal: Animal, cooled: bool, settings: dict[str, float], on: date
) -> tuple[int, str]:
    stage = stage_on(animal.species.scientific, animal.hatched, on)
    return interval(stage, greatest_age(animal.hatched, on), cooled, settings)


def _last(weighed: Event | None, on: date) -> str:
    return f"last {days_ago_words(weighed.day, on)}" if weighed else "never yet"
