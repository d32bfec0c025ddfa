"""The tasks of the coming weeks, each as often as it is due when it is done each time."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from msgspec import Struct

from warmside.core.asking.ask import Ask
from warmside.core.asking.round import Stop
from warmside.core.record.book import Book


class ComingTask(Struct, frozen=True):
    """A task on a day; `identity` is the same whenever it is asked, so that one can be moved."""

    day: date
    title: str
    why: str
    identity: tuple[str, ...]


def coming(ask: Ask, weeks: int) -> Iterator[ComingTask]:
    """An entry for each time that a task is due in the coming weeks."""
    today = ask.book.today
    days = [today + timedelta(days=ahead) for ahead in range(7 * weeks)]
    stops: dict[str, dict[date, Stop]] = {}
    for day in days:
        for stop in ask.round(day):
            stops.setdefault(stop.identity, {}).setdefault(stop.task.due, stop)
    for by_due in stops.values():
        first = [max(due, today) for due in by_due]
        last = [*by_due.values()][-1]
        for number, (day, stop) in enumerate(zip(first, by_due.values(), strict=True), 1):
            yield _task(ask.book, stop, number, day)
        for number, day in enumerate(_repeats(last, first[-1], days[-1]), len(first) + 1):
            yield _task(ask.book, last, number, day)


def _repeats(stop: Stop, first: date, end: date) -> Iterator[date]:
    """The days after the first on which the task comes again, up to the end."""
    if stop.every_days is not None:
        day = first + timedelta(days=stop.every_days)
        while day <= end:
            yield day
            day += timedelta(days=stop.every_days)


def _task(book: Book, stop: Stop, number: int, day: date) -> ComingTask:
    task = stop.task
    animal = book.animals.get(task.about.animal_id) if task.about.animal_id else None
    place = book.enclosures.get(stop.enclosure_id) if stop.enclosure_id else None
    who = animal.label if animal else (place.code if place else "")
    where = f"in {place.code}" if place and animal else ""
    title = " ".join(w for w in (f"{who}:" if who else "", task.what, where) if w)
    lines = [task.basis.rule, f"source: {task.basis.source.text} [{task.basis.source.mark}]"]
    if task.note:
        lines.append(task.note)
    if task.by and task.by > task.due:
        lines.append(f"until {task.by}")
    return ComingTask(day, title, "\n".join(lines), (book.home.name, stop.identity, str(number)))
