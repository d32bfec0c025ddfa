"""The sections of a report: what an animal has been ill with, and what was ordered."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import Book, Section
from warmside.plugins.health.cases.course_of_case import cases
from warmside.plugins.health.reading.cases import entries_of
from warmside.plugins.health.reading.courses import bottles_of, courses_of, wall_now
from warmside.plugins.health.telling.awaited import of_animal
from warmside.plugins.health.telling.cases import table as case_table
from warmside.plugins.health.telling.courses import table as course_table
from warmside.plugins.health.telling.deaths import section as after_death


def sections(book: Book, animal: int, on: date) -> Iterator[Section]:
    """What followed its death, its cases, courses, visits and samples, each where there is any."""
    yield from after_death(book, animal, on)
    run = cases(entries_of(book, animal, on))
    if run:
        yield Section("Cases of illness", (case_table(run),), 290)
    courses = courses_of(book, animal, on)
    if courses:
        bottles = bottles_of(book, animal, courses, on)
        shown = course_table(courses, on, wall_now(book, on), bottles)
        yield Section("Courses of treatment", (shown,), 292)
    yield from of_animal(book, animal, on)
