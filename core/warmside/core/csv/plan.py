"""The plan of an import: which rows are new, which are on record, which are bad or doubtful."""

from __future__ import annotations

import bisect
from collections import Counter, defaultdict
from collections.abc import Iterable
from datetime import date

from msgspec import Struct, field

from warmside.core.asking.ask import Ask
from warmside.core.csv.events import Outcome
from warmside.core.csv.stored import EventKey, masses, stored_keys
from warmside.core.record.book import Book
from warmside.core.record.entities import NewEvent
from warmside.core.record.plausible import Known, doubts, later_today
from warmside.core.record.steps import check_subject, data_text
from warmside.core.record.whereabouts import NEVER, WHEREABOUTS_KINDS, Custody, Whereabouts, history
from warmside.core.values.moments import instant_text


class Plan(Struct, frozen=True):
    """Rows by what becomes of them; lines are those of the file.

    `unsaid` holds, for each field that rows leave unsaid (`fed.outcome`), the lines of these.
    """

    new: list[NewEvent] = field(default_factory=list)
    new_lines: list[int] = field(default_factory=list)
    same: list[int] = field(default_factory=list)
    bad: list[tuple[int, str]] = field(default_factory=list)
    doubtful: list[tuple[int, str]] = field(default_factory=list)
    unsaid: dict[str, list[int]] = field(default_factory=dict)
    left_out: list[int] = field(default_factory=list)


def plan(ask: Ask, outcomes: Iterable[Outcome]) -> Plan:
    """Sort rows into a plan. A row that is on record as often as in the file is the same."""
    good: list[tuple[int, NewEvent]] = []
    made = Plan()
    for outcome in outcomes:
        if outcome.event is not None:
            good.append((outcome.line, outcome.event))
        elif outcome.problem:
            made.bad.append((outcome.line, outcome.problem))
        elif outcome.unsaid:
            made.unsaid.setdefault(outcome.unsaid, []).append(outcome.line)
        else:
            made.left_out.append(outcome.line)
    _split_same(ask.book, good, made)
    _find_doubts(ask, made)
    return made


def _split_same(book: Book, good: list[tuple[int, NewEvent]], made: Plan) -> None:
    if not good:
        return
    days = [event.day for _, event in good]
    kinds = {event.kind for _, event in good}
    stored: Counter[EventKey] = stored_keys(book, kinds, min(days), max(days))
    for line, event in good:
        key = _key(event)
        if stored[key] > 0:
            stored[key] -= 1
            made.same.append(line)
        else:
            made.new.append(event)
            made.new_lines.append(line)


def _key(event: NewEvent) -> EventKey:
    at = instant_text(event.at) if event.at else None
    data = data_text(event.data)
    return event.kind, event.animal_id, event.enclosure_id, event.day.isoformat(), at, data


def _find_doubts(ask: Ask, made: Plan) -> None:
    book = ask.book
    masses = _masses_before(book, made.new)
    stays: dict[int, tuple[list[date], list[Whereabouts]]] = {}
    for index, (line, event) in enumerate(zip(made.new_lines, made.new, strict=True)):
        known = None
        if event.animal_id is not None:
            animal = book.animals[event.animal_id]
            custody = _custody(book, stays, event.animal_id, event.day)
            known = Known(animal.name, animal.hatched, custody, masses.get(index))
        kind = ask.kind(event.kind)
        check_subject(kind, event, book)
        found = doubts(
            event.kind,
            event.day,
            event.data,
            book.today,
            known,
            book.home.display,
            later_today=later_today(event, book.now, book.today),
            absent=kind.absent,
            dead=kind.dead,
        )
        made.doubtful.extend((line, text) for text in found)


def _masses_before(book: Book, new: list[NewEvent]) -> dict[int, float]:
    """For each new event by its index: the last mass before it, on record or in the file."""
    days = [e.day for e in new if e.kind in ("weighed", "fed")]
    if not days:
        return {}
    weighed: dict[int, list[tuple[str, float]]] = defaultdict(list)
    for animal_id, day, mass_g in masses(book, max(days)):
        weighed[animal_id].append((day, mass_g))
    for event in new:
        if event.kind == "weighed" and event.animal_id is not None:
            weighed[event.animal_id].append((event.day.isoformat(), event.data["mass_g"]))
    for earlier in weighed.values():
        earlier.sort()
    found = {}
    for index, later in enumerate(new):
        earlier = weighed.get(later.animal_id or 0, [])
        place = bisect.bisect_left(earlier, (later.day.isoformat(), 0.0))
        if place:
            found[index] = earlier[place - 1][1]
    return found


def _custody(
    book: Book,
    stays: dict[int, tuple[list[date], list[Whereabouts]]],
    animal_id: int,
    day: date,
) -> Custody:
    if animal_id not in stays:
        found = history(book.events(*WHEREABOUTS_KINDS, animal=animal_id))
        stays[animal_id] = ([w.since for w in found], found)
    days, found = stays[animal_id]
    place = bisect.bisect_right(days, day)
    return found[place - 1].custody if place else NEVER.custody
