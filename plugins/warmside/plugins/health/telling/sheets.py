"""Cases and courses on sheets: for a vet what goes on, for a sitter how doses are given."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from warmside.api import Animal, Section, Words, sheets
from warmside.plugins.health.cases.course_of_case import Case
from warmside.plugins.health.courses.bottle import Bottle
from warmside.plugins.health.courses.order import Course
from warmside.plugins.health.samples.sample import Sample, awaited
from warmside.plugins.health.telling.courses import history_line, state

EXACTLY = (
    "Medicines: exactly what the day's line says, by whom the keeper has shown it. Missed, spat "
    "out, brought up or given twice: write down what and when, give no more, call the keeper or "
    "the vet. Nothing from another bottle, nothing for another animal."
)
MOST_CLOSED, MOST_RESULTS, YEAR_DAYS = 3, 4, 365


def of_cases(found: Sequence[Case]) -> Iterator[Section]:
    """The open case with its entries first, then how the last ones ended."""
    told = [f"open since {case.begun}: {_entries(case)}" for case in found if case.is_open]
    over = [case for case in found if not case.is_open][-MOST_CLOSED:]
    told += [f"{case.begun} to {case.entries[-1].day}: {_entries(case)}" for case in over]
    if told:
        words = tuple(Words(text) for text in told)
        yield Section("Cases", words, sheets.Place.WHY)


def _entries(case: Case) -> str:
    said = [f"{entry.what} ({entry.day})" for entry in case.entries]
    awaited = [f"awaited: {case.awaited}"] if case.is_open and case.awaited else []
    return "; ".join((*said, *awaited))


def of_courses(courses: Sequence[Course], on: date) -> Iterator[Section]:
    """Each course in a line, those that run first."""
    if courses:
        ordered = sorted(courses, key=lambda c: (not c.runs(on), c.order.start))
        words = (Words(f"{state(c, on)}: {history_line(c, on)}") for c in ordered)
        yield Section("Courses", tuple(words), sheets.Place.TREATMENT)


def of_samples(said: Sequence[Sample], on: date) -> Iterator[Section]:
    """Results that are awaited, then the newest results, word for word."""
    waiting = [f"awaited: {s.words}, handed in on {s.day}" for s in awaited(said)]
    results = [s for s in said if s.is_result and (on - s.day).days <= YEAR_DAYS]
    told = [
        f"{s.day}: {s.words}: {s.says or 'no words on record'}" for s in results[-MOST_RESULTS:]
    ]
    if waiting or told:
        words = tuple(Words(text) for text in (*waiting, *reversed(told)))
        yield Section("Samples", words, sheets.Place.TREATMENT)


def for_sitter(
    running: Sequence[tuple[Animal, Course, Bottle | None]],
) -> Iterator[Section]:
    """How each medicine is given, as it was ordered; nothing where none is given."""
    if running:
        told = (Words(_how(animal, course, bottle)) for animal, course, bottle in running)
        yield Section("Medicines", (Words(EXACTLY), *told), sheets.SitterPlace.HOW)


def _how(animal: Animal, course: Course, bottle: Bottle | None) -> str:
    order = course.order
    parts = (
        f"{animal.name}: {order.words}",
        order.food,
        f"watch for: {order.watch}" if order.watch else "",
        f"keep it: {bottle.storage}" if bottle and bottle.storage else "",
        f"not after {bottle.expires}" if bottle and bottle.expires else "",
        f"until {course.last_day}" if course.last_day else "until the vet stops it",
        f"ordered by {order.by}" if order.by else "",
    )
    return "; ".join(part for part in parts if part)
