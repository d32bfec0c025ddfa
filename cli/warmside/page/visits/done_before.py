"""Who did it before, and when: told to whoever comes second."""

from __future__ import annotations

from datetime import timedelta

from warmside.core.asking.ask import Ask
from warmside.core.asking.rounds.round import Keyed, keyed
from warmside.core.record.book import Book
from warmside.core.record.entities import Event, Step
from warmside.core.values.moments import local_text
from warmside.page.phones.people import Rights
from warmside.page.visits.visit import home_code

SEARCHED = 200
"""So many of the newest steps are looked at."""
LATELY = timedelta(days=1)


def who_and_when(book: Book, step: Step) -> str:
    """`2026-03-05 09:10, by Ann`, or at the desk."""
    zone = book.home.zone
    when = local_text(step.at.astimezone(zone).date(), step.at, zone)
    return f"{when}, by {step.by}" if step.by else f"{when}, at the desk"


def settled_before(ask: Ask, rights: Rights, key: str) -> str | None:
    """What was recorded lately of the kind that settles the task, by whom and when.

    Nothing of a place that somebody may not see.
    """
    known = keyed(key)
    if known is None or not known.settles or not rights.may_see(_place(ask.book, known)):
        return None
    event = _newest(ask.book, known)
    if event is None:
        return None
    lately = ask.book.now - LATELY
    step = next((s for s in ask.book.steps(SEARCHED) if s.id == event.step_id), None)
    if step is None or step.at < lately:
        return None
    return f"that is done already: {ask.event_words(event)}, {who_and_when(ask.book, step)}"


def _place(book: Book, known: Keyed) -> str | None:
    place = book.enclosures.get(known.enclosure_id or 0)
    if place is None and known.animal_id is not None and known.animal_id in book.animals:
        return home_code(book, known.animal_id)
    return place.code if place else None


def _newest(book: Book, known: Keyed) -> Event | None:
    kind = known.settles
    found = book.latest_of(known.animal_id, kind).get(kind) if known.animal_id else None
    return found or book.latest_in(kind)[kind].get(known.enclosure_id or 0)


def taken_back_before(book: Book, step: Step) -> str | None:
    """Who took a step back and when; None while it is in force."""
    if step.undone_by is None:
        return None
    undo = next((s for s in book.steps(SEARCHED) if s.id == step.undone_by), None)
    return f"taken back already: {who_and_when(book, undo)}" if undo else "taken back already"
