"""The round as it was shown, so that `done 5` means the task that the keeper saw as 5."""

from __future__ import annotations

from datetime import date

from msgspec import Struct

from warmside.core.asking.ask import Ask
from warmside.core.asking.rounds.findings_told import by_urgency
from warmside.core.asking.rounds.round import Pace, Stop
from warmside.core.asking.rounds.said_once import findings_of_round
from warmside.core.plugins.hook_values import Finding
from warmside.core.record.book import Book


class ShownTask(Struct, frozen=True):
    """A line of the round: its task's key, what it said, whom and where, and whether it may wait.

    `animal_id` and `enclosure_id` are 0 where there is none.
    """

    key: str
    name: str
    animal_id: int
    enclosure_id: int
    may: bool


class ShownFinding(Struct, frozen=True):
    """A finding of the round: which it is, and what it said; ids are 0 where there is none."""

    code: str
    animal_id: int
    enclosure_id: int
    words: str


class Shown(Struct, frozen=True):
    """The lines of a round in their order, and the day that it was for."""

    on: date
    tasks: tuple[ShownTask, ...]
    findings: tuple[ShownFinding, ...] = ()


def shown_round(ask: Ask, on: date) -> Shown:
    """The round of a day as it is shown now."""
    findings = tuple(
        ShownFinding(f.code, f.about.animal_id or 0, f.about.enclosure_id or 0, f.words)
        for f in shown_findings(ask, on)
    )
    return Shown(on, tuple(_shown(ask.book, stop, on) for stop in ask.round(on)), findings)


def shown_findings(ask: Ask, on: date) -> list[Finding]:
    """The findings of a round in their order, without those that were put off."""
    return by_urgency(ask.book, findings_of_round(ask, on)[0])


def named(book: Book, stop: Stop) -> str:
    """A task and whom it is about: `feed 1 × adult mouse (Tuppence)`."""
    animal = book.animals.get(stop.task.about.animal_id or 0)
    place = book.enclosures.get(stop.enclosure_id or 0)
    who = animal.name if animal else (place.name if place else "")
    return f"{stop.task.what} ({who})" if who else stop.task.what


def _shown(book: Book, stop: Stop, on: date) -> ShownTask:
    return ShownTask(
        stop.key,
        named(book, stop),
        stop.task.about.animal_id or 0,
        stop.enclosure_id or 0,
        stop.pace(on) is Pace.MAY,
    )
