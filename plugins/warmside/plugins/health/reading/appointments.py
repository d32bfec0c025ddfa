"""Appointments and vaccinations on record, as plain values."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, time

from warmside.api import Book, Event
from warmside.plugins.health.appointments.appointment import Appointment, Visit, pending
from warmside.plugins.health.appointments.vaccination import Vaccination, again
from warmside.plugins.health.kinds import APPOINTMENT, CANCELLED, EXAMINED, VACCINATED


def appointment(event: Event) -> Appointment:
    """An event as what was agreed with a vet."""
    said = event.data
    clock = time.fromisoformat(said["clock"]) if said["clock"] else None
    due = date.fromisoformat(said["due"])
    off = said["state"] == CANCELLED
    return Appointment(event.id, event.day, due, clock, said["by"], said["what"], off)


def pending_of(book: Book, animal: int, on: date) -> list[Appointment]:
    """The appointments of an animal that are neither off nor over, by what is known on a day."""
    said = [appointment(e) for e in book.events(APPOINTMENT, animal=animal, until=on)]
    if not said:
        return []
    visits = [Visit(e.id, e.day) for e in book.events(EXAMINED, animal=animal, until=on)]
    return pending(said, visits)


def all_pending(book: Book, on: date) -> Iterator[tuple[int, Appointment]]:
    """The appointments of those that are here, with the animal of each."""
    here = book.animals_here(on)
    for animal in book.latest(APPOINTMENT, on=on)[APPOINTMENT]:
        if animal in here:
            yield from ((animal, one) for one in pending_of(book, animal, on))


def vaccination(event: Event) -> Vaccination:
    """An event as a vaccination that was given."""
    said = event.data
    named = date.fromisoformat(said["again"]) if said["again"] else None
    return Vaccination(event.id, event.day, said["what"], said["by"], said["batch"], named)


def vaccinations_of(book: Book, animal: int, on: date) -> list[Vaccination]:
    """The vaccinations of an animal, the oldest first."""
    return [vaccination(e) for e in book.events(VACCINATED, animal=animal, until=on)]


def all_again(book: Book, on: date) -> Iterator[tuple[int, Vaccination]]:
    """The vaccinations of those that are here of which a vet named a day for the next."""
    here = book.animals_here(on)
    for animal in book.latest(VACCINATED, on=on)[VACCINATED]:
        if animal in here:
            yield from ((animal, one) for one in again(vaccinations_of(book, animal, on)))
