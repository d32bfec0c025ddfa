"""Whom sheets are about, with what runs for them."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import Animal, Book, Section
from warmside.plugins.health.cases.course_of_case import cases
from warmside.plugins.health.courses.bottle import Bottle
from warmside.plugins.health.courses.order import Course
from warmside.plugins.health.reading.cases import entries_of
from warmside.plugins.health.reading.courses import bottle_of, courses_of
from warmside.plugins.health.reading.samples import samples_of
from warmside.plugins.health.reading.vets import vets
from warmside.plugins.health.telling.sheets import for_sitter, of_cases, of_courses, of_samples
from warmside.plugins.health.telling.vets import whom_to_call


def for_vet(book: Book, animal: int, on: date) -> Iterator[Section]:
    """The cases and courses of one animal."""
    yield from of_cases(cases(entries_of(book, animal, on)))
    yield from of_courses(courses_of(book, animal, on), on)
    yield from of_samples(samples_of(book, animal, on), on)


def to_call(book: Book) -> Iterator[Section]:
    """The vets of the keeper's list."""
    return whom_to_call(vets(book))


def medicines(book: Book, of: int | None, first: date, last: date) -> Iterator[Section]:
    """How the medicines are given that run on any of the days, to all or to one animal."""
    running = _running(book, first, last)
    return for_sitter([one for one in running if of is None or one[0].id == of])


def _running(book: Book, first: date, last: date) -> Iterator[tuple[Animal, Course, Bottle | None]]:
    today = book.today
    for animal in book.animals_here(max(first, today)):
        for course in courses_of(book, animal, today):
            over = course.last_day is not None and course.last_day < first
            if not over and course.order.start <= last and not course.is_stopped(first):
                bottle = bottle_of(book, animal, course.order.what, today)
                yield book.animals[animal], course, bottle
