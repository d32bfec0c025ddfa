"""The tasks of the coming weeks, each as often as it is due when it is done each time."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from msgspec import Struct

from warmside.core.asking.ask import Ask
from warmside.core.asking.rounds.round import Stop
from warmside.core.record.book import Book


class ComingTask(Struct, frozen=True):
    """A task on a day; `identity` is the same whenever it is asked, so that one can be moved."""

    day: date
    title: str
    why: str
    identity: tuple[str, ...]


def coming(ask: Ask, weeks: int) -> Iterator[ComingTask]:
    """An entry for each time that a task is due in the coming weeks."""
    for times in each_due(ask, ask.book.today + timedelta(days=7 * weeks - 1)):
        for number, (day, stop) in enumerate(times, 1):
            yield _task(ask.book, stop, number, day)


def each_due(ask: Ask, last: date) -> Iterator[list[tuple[date, Stop]]]:
    """For each task the days up to the last on which it is due, if it is done each time."""
    today = ask.book.today
    stops: dict[str, dict[date, Stop]] = {}
    for ahead in range((last - today).days + 1):
        for stop in ask.round(today + timedelta(days=ahead)):
            stops.setdefault(stop.identity, {}).setdefault(stop.task.due, stop)
    for by_due in stops.values():
        times = [(max(due, today), stop) for due, stop in by_due.items()]
        day, stop = times[-1]
        yield [*times, *((again, stop) for again in _repeats(stop, day, last))]


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
    if task.by and task.by > max(task.due, day):
        lines.append(f"until {task.by}")
    return ComingTask(day, title, "\n".join(lines), (book.home.name, stop.identity, str(number)))
