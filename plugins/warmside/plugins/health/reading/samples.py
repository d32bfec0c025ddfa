"""Samples on record as plain values, and when the yearly faecal check is due."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime, timedelta

from warmside.api import Ask, Book, Event
from warmside.plugins.health.kinds import RESULT, SAMPLE
from warmside.plugins.health.reading.ill import long_here
from warmside.plugins.health.samples.sample import Sample, awaited
from warmside.plugins.health.samples.yearly import FaecalCheck, faecal_check


def sample(event: Event) -> Sample:
    """An event as a sample that was handed in, or as a result."""
    said = event.data
    expected = date.fromisoformat(said["expected"]) if said["expected"] else None
    is_result = said["state"] == RESULT
    return Sample(
        event.id,
        event.day,
        said["what"],
        is_result,
        said["lab"],
        said["ref"],
        expected,
        said["says"],
    )


def samples_of(book: Book, animal: int, on: date) -> list[Sample]:
    """The samples and results of an animal, the oldest first."""
    return [sample(e) for e in book.events(SAMPLE, animal=animal, until=on)]


def all_awaited(book: Book, on: date) -> Iterator[tuple[int, Sample]]:
    """The samples of which no result is on record, also of those that have died or left."""
    for animal in book.latest(SAMPLE, on=on)[SAMPLE]:
        yield from ((animal, one) for one in awaited(samples_of(book, animal, on)))


def faecal_checks(ask: Ask, on: date) -> Iterator[tuple[int, FaecalCheck, int]]:
    """The yearly checks that are due on a day, with after how many days each comes again."""
    book = ask.book
    sampled = book.latest(SAMPLE, on=on)[SAMPLE]
    days: dict[int, date] = {}
    for animal, came, every in long_here(ask, on):
        written = days.get(came.step_id) or _written(book, came.step_id)
        days[came.step_id] = written
        if animal not in sampled and written + timedelta(days=every) > on:
            continue
        said = samples_of(book, animal, on) if animal in sampled else []
        check = faecal_check(said, came.day, written, timedelta(days=every))
        if check.due <= on:
            yield animal, check, every


def _written(book: Book, step: int) -> date:
    """The home day on which a step was written."""
    ((at,),) = book.rows("SELECT at FROM step WHERE id = ?", (step,))
    return datetime.fromisoformat(at).astimezone(book.home.zone).date()
