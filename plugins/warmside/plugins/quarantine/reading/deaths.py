"""Deaths among the animals, with those that shared their air."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from warmside.api import Book, Event
from warmside.plugins.quarantine.clock.events import DiedBeside
from warmside.plugins.quarantine.contact.deaths import CONTACT_DAYS, Death, contacts
from warmside.plugins.quarantine.reading.stays import stays
from warmside.plugins.quarantine.reading.wall_clock import wall_time

Deaths = tuple[tuple[Death, tuple[str, ...]], ...]


def deaths(book: Book, on: date, since: date) -> Deaths:
    """Each death from a day on, with the codes of its contacts."""

    def make() -> Deaths:
        died = book.events("died", since=since, until=on)
        return tuple((found, _contacts(book, on, found)) for found in _read(book, died))

    return book.once(("quarantine", "deaths", on, since), make)


def deaths_beside(book: Book, animal_id: int, on: date, since: date) -> Iterator[DiedBeside]:
    """The deaths of others that shared the animal's air, as events of its quarantine."""
    code = book.animals[animal_id].code
    for death, met in deaths(book, on, since):
        if code in met:
            label = book.animals[death.animal_id].label
            yield DiedBeside(death.event_id, death.at, label)


def _read(book: Book, died: Iterable[Event]) -> Iterator[Death]:
    for event in died:
        assert event.animal_id is not None
        code = book.animals[event.animal_id].code
        yield Death(event.animal_id, code, wall_time(event, book.home.zone), event.id)


def _contacts(book: Book, on: date, death: Death) -> tuple[str, ...]:
    since = death.at.date() - timedelta(days=CONTACT_DAYS)
    return contacts(stays(book, on, since), death)
