"""All that is to know of one animal that is or was ill."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import About, Ask, Book, Finding
from warmside.plugins.health.cases.from_signs import is_only_signs
from warmside.plugins.health.courses.order import Course
from warmside.plugins.health.findings.cases import open_case
from warmside.plugins.health.findings.courses import (
    bottle,
    is_told,
    not_taken,
    other_weight,
    without_record,
)
from warmside.plugins.health.findings.food import food
from warmside.plugins.health.reading.cases import last_visit
from warmside.plugins.health.reading.courses import bottle_of, courses_of, mass_of_order, weights
from warmside.plugins.health.reading.treatment import open_case_of, told_of

SIGNS = "standing signs"


def findings_of(ask: Ask, animal: int, on: date) -> Iterator[Finding]:
    """Its open case, how it is fed meanwhile, and what is wrong in its courses."""
    yield from _of_case(ask, animal, on)
    code = ask.book.animals[animal].code
    told = told_of(ask.book, animal, on)
    if told is not None:
        yield food(animal, code, told)
    for course in courses_of(ask.book, animal, on):
        if is_told(course, on):
            yield from filter(None, (without_record(animal, code, course, on),))
        if course.runs(on):
            yield from _of_running(ask.book, animal, course, on)


def _of_case(ask: Ask, animal: int, on: date) -> Iterator[Finding]:
    """An open case, unless it is all of signs of which another plugin speaks, so that one fact is
    one row."""
    case = open_case_of(ask.book, animal, on)
    if case is None or (is_only_signs(case) and ask.answers(SIGNS, About(animal), on)):
        return
    visit = last_visit(ask.book, animal, case, on)
    yield open_case(animal, ask.book.animals[animal].code, case, visit)


def _of_running(book: Book, animal: int, course: Course, on: date) -> Iterator[Finding]:
    by_then, now = weights(book, animal, course.order, on)
    ordered_g = mass_of_order(course.order, by_then)
    found = (
        not_taken(animal, course, on),
        other_weight(animal, course, ordered_g, now, book.home.display),
    )
    yield from filter(None, found)
    yield from bottle(animal, course, bottle_of(book, animal, course.order.what, on), on)
