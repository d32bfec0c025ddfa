"""The command that shows an animal's cases."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, paragraphs, session_of
from warmside.plugins.health.cases.course_of_case import cases
from warmside.plugins.health.reading.cases import entries_of
from warmside.plugins.health.reading.courses import bottles_of, courses_of, wall_now
from warmside.plugins.health.telling.cases import NO_DIAGNOSIS, table
from warmside.plugins.health.telling.courses import AS_ORDERED, history_line
from warmside.plugins.health.telling.courses import table as course_table

app = typer.Typer(help="Illness on record: cases and courses.", no_args_is_help=True)


@app.callback()
def _group() -> None:
    """Cases of illness."""


@app.command("cases")
def show_cases(
    context: typer.Context,
    animal: Annotated[str, typer.Argument(help="The animal.")],
) -> Answer:
    """Show the cases of an animal with all entries, open and closed."""
    with session_of(context).read() as book:
        whom = book.animal(animal)
        shown = table(cases(entries_of(book, whom.id, book.today)))
    return Answer(f"Cases of {whom.label}", (NO_DIAGNOSIS, shown))


@app.command("courses")
def show_courses(
    context: typer.Context,
    animal: Annotated[str, typer.Argument(help="The animal.")],
    on: Annotated[str | None, typer.Option(help="As of that day.")] = None,
) -> Answer:
    """Show what vets ordered for an animal, what became of it, and when the next doses are due."""
    session = session_of(context)
    with session.read() as book:
        day, whom = session.day(on, book), book.animal(animal)
        courses = courses_of(book, whom.id, day)
        bottles = bottles_of(book, whom.id, courses, day)
        shown = course_table(courses, day, wall_now(book, day), bottles)
        over = [history_line(c, day) for c in courses if c.order.start <= day and not c.runs(day)]
    return Answer(f"Courses of {whom.label}", (AS_ORDERED, shown, *paragraphs(*over)))
