"""All that is due: for one animal that is ill, for all that are awaited, and after deaths."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import Ask, Book, Task
from warmside.plugins.health.appointments.appointment import stands_for
from warmside.plugins.health.cases.course_of_case import recheck
from warmside.plugins.health.reading.appointments import all_again, all_pending, pending_of
from warmside.plugins.health.reading.cases import seen_by_vet
from warmside.plugins.health.reading.courses import courses_of, wall_now
from warmside.plugins.health.reading.deaths import recent_deaths
from warmside.plugins.health.reading.samples import all_awaited, faecal_checks
from warmside.plugins.health.reading.treatment import open_case_of
from warmside.plugins.health.tasks.after_death import death_tasks
from warmside.plugins.health.tasks.appointed import (
    appointment_task,
    result_task,
    vaccination_task,
)
from warmside.plugins.health.tasks.doses import dose_tasks
from warmside.plugins.health.tasks.recheck import recheck_task
from warmside.plugins.health.tasks.yearly import faecal_task


def tasks_of(book: Book, animal: int, on: date) -> Iterator[Task]:
    """The recheck that is due, unless an appointment is made for it, and the doses of the day."""
    case = open_case_of(book, animal, on)
    named = recheck(case, seen_by_vet(book, animal, on)) if case else None
    task = recheck_task(animal, named) if named else None
    if task is not None and task.due <= on and not _is_appointed(book, animal, task.due, on):
        yield task
    for course in courses_of(book, animal, on):
        yield from dose_tasks(animal, course, on, book.home.zone, wall_now(book, on))


def _is_appointed(book: Book, animal: int, recheck: date, on: date) -> bool:
    return stands_for(pending_of(book, animal, on), recheck)


def appointed(book: Book, on: date) -> Iterator[Task]:
    """Appointments of the day, results to ask for, vaccinations that a vet named the day of."""
    for animal, one in all_pending(book, on):
        yield from _given(appointment_task(animal, book.animals[animal].code, one, on))
    here = book.animals_here(on)
    for animal, handed_in in all_awaited(book, on):
        if animal in here:
            yield from _given(result_task(animal, handed_in, on))
    for animal, given in all_again(book, on):
        yield from _given(vaccination_task(animal, given, on))


def after_deaths(book: Book, on: date) -> Iterator[Task]:
    """What is asked after each death of the last weeks."""
    for death, said in recent_deaths(book, on):
        yield from death_tasks(death, said, on)


def yearly_checks(ask: Ask, on: date) -> Iterator[Task]:
    """The faecal checks that are due."""
    for animal, check, every in faecal_checks(ask, on):
        yield faecal_task(animal, check, every)


def _given(task: Task | None) -> Iterator[Task]:
    if task is not None:
        yield task
