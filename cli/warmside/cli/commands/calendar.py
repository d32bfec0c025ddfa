"""`warmside calendar`: the coming tasks as an iCalendar file."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, time, timedelta
from pathlib import Path
from typing import Annotated

import typer

from warmside.cli.calendar_file import CalendarEntry, calendar_text, stable_uid
from warmside.core.answers.parts import Answer, Fact, said
from warmside.core.asking.ask import Ask
from warmside.core.asking.round import Stop
from warmside.core.record.book import Book
from warmside.core.session.session import session_of
from warmside.core.values.errors import BadInput, FileProblem
from warmside.core.values.units import Unit

app = typer.Typer()
MOST_WEEKS = 52


@app.command("")
def calendar(
    context: typer.Context,
    target: Annotated[Path, typer.Argument(help="The file, such as round.ics.")],
    weeks: Annotated[int, typer.Option(help="How many weeks ahead.")] = 6,
    clock: Annotated[
        str | None, typer.Option("--time", help="At that local time, such as 19:00; else all day.")
    ] = None,
    alarm: Annotated[
        int | None, typer.Option(help="Minutes before, for an alarm; else there is none.")
    ] = None,
) -> Answer:
    """Write the tasks of the coming weeks; importing the file again updates them."""
    session = session_of(context)
    if not 1 <= weeks <= MOST_WEEKS:
        raise BadInput(f"--weeks is between 1 and {MOST_WEEKS}, not {weeks}")
    if target.suffix.lower() != ".ics":
        raise BadInput(f"a calendar file ends in .ics, not {target.name!r}")
    at = clock_time(clock) if clock else None
    with session.ask() as ask:
        entries = list(coming(ask, weeks, at))
        text = calendar_text(entries, ask.book.home.zone.key, session.now, alarm)
    try:
        target.write_bytes(text.encode("utf-8"))
    except OSError as error:
        raise FileProblem(f"cannot write {target}: {error.strerror}") from error
    return said(
        f"wrote {len(entries)} task{'s' * (len(entries) != 1)} of the next "
        f"{'week' if weeks == 1 else f'{weeks} weeks'} to {target}",
        Fact("tasks", "tasks", len(entries), Unit.COUNT),
    )


def clock_time(text: str) -> time:
    """A time of day; raises BadInput for anything else."""
    wrong = BadInput(f"--time is a local time such as 19:00, not {text!r}")
    try:
        clock = time.fromisoformat(text)
    except ValueError:
        raise wrong from None
    if clock.tzinfo is not None:
        raise wrong
    return clock


def coming(ask: Ask, weeks: int, at: time | None) -> Iterator[CalendarEntry]:
    """An entry for each time that a task is due in the coming weeks, done each time when due."""
    book = ask.book
    days = [book.today + timedelta(days=ahead) for ahead in range(7 * weeks)]
    stops: dict[str, dict[date, Stop]] = {}
    for day in days:
        for stop in ask.round(day):
            stops.setdefault(stop.identity, {}).setdefault(stop.task.due, stop)
    for by_due in stops.values():
        first = [max(due, book.today) for due in by_due]
        last = [*by_due.values()][-1]
        for number, (day, stop) in enumerate(zip(first, by_due.values(), strict=True), 1):
            yield entry(book, stop, number, day, at)
        for number, day in enumerate(repeats(last, first[-1], days[-1]), len(first) + 1):
            yield entry(book, last, number, day, at)


def repeats(stop: Stop, first: date, end: date) -> Iterator[date]:
    """The days after the first on which the task comes again, up to the end."""
    if stop.every_days is not None:
        day = first + timedelta(days=stop.every_days)
        while day <= end:
            yield day
            day += timedelta(days=stop.every_days)


def entry(book: Book, stop: Stop, number: int, day: date, at: time | None) -> CalendarEntry:
    """The task as an entry; its identity is the task's, so that a shifted one is moved."""
    task = stop.task
    animal = book.animals.get(task.about.animal_id) if task.about.animal_id else None
    place = book.enclosures.get(stop.enclosure_id) if stop.enclosure_id else None
    who = animal.label if animal else (place.code if place else "")
    where = f"in {place.code}" if place and animal else ""
    title = " ".join(w for w in (f"{who}:" if who else "", task.what, where) if w)
    lines = [task.basis.rule, f"source: {task.basis.source.text} [{task.basis.source.mark}]"]
    if task.note:
        lines.append(task.note)
    uid = stable_uid(book.home.name, stop.identity, str(number))
    return CalendarEntry(uid, day, at, title, "\n".join(lines))
