"""All that is due for one animal that is ill."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import Book, Task
from warmside.plugins.health.cases.course_of_case import recheck
from warmside.plugins.health.reading.cases import seen_by_vet
from warmside.plugins.health.reading.courses import courses_of, wall_now
from warmside.plugins.health.reading.treatment import open_case_of
from warmside.plugins.health.tasks.doses import dose_tasks
from warmside.plugins.health.tasks.recheck import recheck_task


def tasks_of(book: Book, animal: int, on: date) -> Iterator[Task]:
    """The recheck that is due, and the doses of the day."""
    case = open_case_of(book, animal, on)
    named = recheck(case, seen_by_vet(book, animal, on)) if case else None
    task = recheck_task(animal, named) if named else None
    if task is not None and task.due <= on:
        yield task
    for course in courses_of(book, animal, on):
        yield from dose_tasks(animal, course, on, book.home.zone, wall_now(book, on))
