"""One event in the keeper's words."""

from __future__ import annotations

from functools import partial

from warmside.core.kinds.known import Kinds
from warmside.core.record.book import Book
from warmside.core.record.entities import Event
from warmside.core.record.references import label_of, told_data
from warmside.core.values.moments import local_text


def event_words(book: Book, kinds: Kinds, event: Event) -> str:
    """What happened: `fed: weaned mouse, 16 g, thawed, taken`."""
    kind = kinds.get(event.kind)
    if kind is None:  # of a plugin that is not at work
        data = told_data(book, event.data).items()
        told = ", ".join(f"{k} {v}" for k, v in data if v not in (None, "", []))
        words = f"{event.kind}: {told}" if told else event.kind
    else:
        words = kind.line(event.data, book.home.display, partial(label_of, book))
    return f"{words} ({event.note})" if event.note else words


def subject_words(book: Book, event: Event) -> str:
    """Whom it was about: the animal's label, the enclosure's code, or both."""
    animal = book.animals.get(event.animal_id) if event.animal_id else None
    place = book.enclosures.get(event.enclosure_id) if event.enclosure_id else None
    if animal and place:
        return f"{animal.label} in {place.code}"
    if animal:
        return animal.label
    return f"{place.name} ({place.code})" if place else "?"


def when_words(book: Book, event: Event) -> str:
    """The day, and the local time where it is known."""
    return local_text(event.day, event.at, book.home.zone)
