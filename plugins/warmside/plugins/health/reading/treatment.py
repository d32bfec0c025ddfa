"""Who is in treatment, what a vet said of its food, and the signs on record."""

from __future__ import annotations

from datetime import date

from warmside.api import Book, Event
from warmside.plugins.health.cases.course_of_case import Case, cases
from warmside.plugins.health.cases.from_signs import SignSaid
from warmside.plugins.health.cases.treatment import (
    FoodWord,
    Told,
    Treatment,
    fed_as_told,
    treatment,
)
from warmside.plugins.health.kinds import CASE, COURSE, FOOD, SIGN
from warmside.plugins.health.reading.cases import entries_of
from warmside.plugins.health.reading.courses import courses_of


def open_case_of(book: Book, animal: int, on: date) -> Case | None:
    """The open case of an animal."""
    run = cases(entries_of(book, animal, on))
    return run[-1] if run and run[-1].is_open else None


def treatment_of(book: Book, animal: int, on: date) -> Treatment | None:
    """The treatment of an animal on a day; quick for one of which nothing is on record."""
    last = book.latest(CASE, COURSE, on=on)
    if animal not in last[CASE] and animal not in last[COURSE]:
        return None
    return book.once(("health", "treatment", animal, on), lambda: _treatment(book, animal, on))


def _treatment(book: Book, animal: int, on: date) -> Treatment | None:
    courses = courses_of(book, animal, on)
    ordered = [book.event(c.order.event).day for c in courses]
    return treatment(open_case_of(book, animal, on), courses, ordered, on)


def told_of(book: Book, animal: int, on: date) -> Told | None:
    """How an animal is fed that is not fed by its plan."""
    found = treatment_of(book, animal, on)
    if found is None:
        return None
    said = [food_word(e) for e in book.events(FOOD, animal=animal, until=on)]
    return fed_as_told(found, said, on)


def food_word(event: Event) -> FoodWord:
    """An event as what a vet said of the food."""
    said = event.data
    until = date.fromisoformat(said["until"]) if said["until"] else None
    return FoodWord(event.id, event.day, said["says"], said["words"], said["by"], until)


def signs_of(book: Book, animal: int, on: date) -> list[SignSaid]:
    """What was recorded of signs of an animal, the oldest first."""
    return [
        SignSaid(e.id, e.day, e.data["sign"], e.data["state"] == "seen", e.data["where"])
        for e in book.events(SIGN, animal=animal, until=on)
    ]
