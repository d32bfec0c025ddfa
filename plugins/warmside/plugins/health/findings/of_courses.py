"""All that is to know of the courses of one animal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from warmside.api import Book, Finding
from warmside.plugins.health.courses.order import Course
from warmside.plugins.health.findings.courses import (
    bottle,
    is_told,
    not_taken,
    other_weight,
    without_record,
)
from warmside.plugins.health.reading.courses import bottle_of, mass_of_order, weights


def findings_of(book: Book, animal: int, courses: Sequence[Course], on: date) -> Iterator[Finding]:
    """The findings of each course that runs, or has ended of late."""
    code = book.animals[animal].code
    for course in courses:
        if is_told(course, on):
            yield from filter(None, (without_record(animal, code, course, on),))
        if course.runs(on):
            yield from _of_running(book, animal, course, on)


def _of_running(book: Book, animal: int, course: Course, on: date) -> Iterator[Finding]:
    by_then, now = weights(book, animal, course.order, on)
    ordered_g = mass_of_order(course.order, by_then)
    found = (
        not_taken(animal, course, on),
        other_weight(animal, course, ordered_g, now, book.home.display),
    )
    yield from filter(None, found)
    yield from bottle(animal, course, bottle_of(book, animal, course.order.what, on), on)
