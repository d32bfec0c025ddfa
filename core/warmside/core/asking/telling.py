"""Events in the keeper's words."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial
from typing import TYPE_CHECKING

from warmside.core.record.entities import Event
from warmside.core.record.references import label_of, told_data
from warmside.core.values.moments import local_text

if TYPE_CHECKING:
    from warmside.core.asking.ask import Ask


def event_words(ask: Ask, event: Event) -> str:
    """What happened: `fed: weaned mouse, 16 g, thawed, taken`."""
    kind = ask.kinds.get(event.kind)
    if kind is None:  # of a plugin that is not at work
        data = told_data(ask.book, event.data).items()
        told = ", ".join(f"{k} {v}" for k, v in data if v not in (None, "", []))
        words = f"{event.kind}: {told}" if told else event.kind
    else:
        words = kind.line(event.data, ask.book.home.display, partial(label_of, ask.book))
    return f"{words} ({event.note})" if event.note else words


def subject_words(ask: Ask, event: Event) -> str:
    """Whom it was about: the animal's label, the enclosure's code, or both."""
    book = ask.book
    animal = book.animals.get(event.animal_id) if event.animal_id else None
    place = book.enclosures.get(event.enclosure_id) if event.enclosure_id else None
    if animal and place:
        return f"{animal.label} in {place.code}"
    if animal:
        return animal.label
    return f"{place.name} ({place.code})" if place else "?"


def when_words(ask: Ask, event: Event) -> str:
    """The day, and the local time where it is known."""
    return local_text(event.day, event.at, ask.book.home.zone)


def told(ask: Ask, event: Event) -> str:
    """The whole event in one line."""
    return f"{when_words(ask, event)} {subject_words(ask, event)}: {event_words(ask, event)}"


def step_words(ask: Ask, events: Iterable[Event]) -> list[str]:
    """What a step did, in the keeper's words, for undo's preview."""
    listed = list(events)
    told = [f"{subject_words(ask, e)}: {event_words(ask, e)}" for e in listed[:3]]
    return told + ([f"and {len(listed) - 3} more"] if len(listed) > 3 else [])
