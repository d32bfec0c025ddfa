"""The quarantines of a collection on a day, computed from its record."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from warmside.api import Book, WarmsideError
from warmside.plugins.quarantine.kinds import RELEASED, STARTED
from warmside.plugins.quarantine.reading import events_of
from warmside.plugins.quarantine.stored import originals, protocols
from warmside.plugins.quarantine.timeline import QuarantineState, quarantines, running

CAME = ("arrived", "returned")


@dataclass(frozen=True, slots=True)
class Standing:
    """The animals in quarantine here, by animal id, and those whose record cannot be computed."""

    states: dict[int, QuarantineState]
    troubles: dict[int, str]


def quarantines_of(book: Book, animal_id: int, on: date) -> tuple[QuarantineState, ...]:
    """Every quarantine of an animal up to a day, oldest first."""
    events = events_of(book, animal_id, on)
    return quarantines(events, protocols(book), on, originals(book)) if events else ()


def running_of(book: Book, animal_id: int, on: date) -> QuarantineState | None:
    """The quarantine that an animal is in on a day; none where it is not here."""
    if animal_id not in book.animals_here(on):
        return None
    return running(quarantines_of(book, animal_id, on))


def standing(book: Book, on: date) -> Standing:
    """The quarantines of the animals here on a day, in the order of the animals."""
    states: dict[int, QuarantineState] = {}
    troubles: dict[int, str] = {}
    for animal_id in _candidates(book, on):
        try:
            state = running(quarantines_of(book, animal_id, on))
        except WarmsideError as error:
            troubles[animal_id] = str(error)
        else:
            if state is not None:
                states[animal_id] = state
    return Standing(states, troubles)


def _candidates(book: Book, on: date) -> Iterator[int]:
    """Animals that may be in quarantine: a start without a release of a later day.

    A corrected arrival can move its start behind a release, so these are looked at too.
    """
    last = book.latest(STARTED, RELEASED, *CAME, on=on)
    unchanged = {event.id for kind in CAME for event in last[kind].values()}
    for animal_id in book.animals_here(on):
        start, release = last[STARTED].get(animal_id), last[RELEASED].get(animal_id)
        if start is None:
            continue
        arrival = start.data["arrival"]
        corrected = arrival is not None and arrival not in unchanged
        if release is None or release.day <= start.day or corrected:
            yield animal_id
