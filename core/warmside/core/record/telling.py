"""Events in the keeper's words."""

from __future__ import annotations

from warmside.core.record.book import Book
from warmside.core.record.entities import Event
from warmside.core.values.moments import local_text


def event_words(book: Book, event: Event) -> str:
    """What happened: `fed: weaned mouse, 16 g, thawed, taken`."""
    kind = book.host.kinds.get(event.kind)
    if kind is None:  # of a plugin that is not at work
        told = ", ".join(f"{k} {v}" for k, v in event.data.items() if v not in (None, "", []))
        words = f"{event.kind}: {told}" if told else event.kind
    else:
        words = kind.line(event.data, book.home.display)
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


def told(book: Book, event: Event) -> str:
    """The whole event in one line."""
    return f"{when_words(book, event)} {subject_words(book, event)}: {event_words(book, event)}"
