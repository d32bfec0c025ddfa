"""Who was handled when, from the record, for the order of the day."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date, timedelta

from warmside.api import Basis, Book, Event, Finding, Level, Mark, Source
from warmside.plugins.quarantine.kinds import CHECKED, RELEASED, SAMPLED
from warmside.plugins.quarantine.order_of_day import Handling, residents_after_quarantined
from warmside.plugins.quarantine.timeline import QuarantineState
from warmside.plugins.quarantine.wall_clock import wall_time

LOOK_BACK_DAYS = 7
ON_ANIMALS = ("weighed", "measured", "fed", "treated", "examined", SAMPLED, CHECKED)
ON_ENCLOSURES = ("cleaned", "watered")
ORDER = Source("residents first, quarantined animals last", Mark.COMMON_PRACTICE)


def order_findings(
    book: Book, states: Mapping[int, QuarantineState], on: date
) -> Iterator[Finding]:
    """A finding for each resident handled after a quarantined animal within the last week.

    Only animals that are in quarantine now, or were released within the week, are looked at, and
    only records with a time of day.
    """
    since = on - timedelta(days=LOOK_BACK_DAYS - 1)
    released = book.latest(RELEASED, on=on)[RELEASED].values()
    if not states and all(r.day < since for r in released):
        return
    ids = {book.animals[a].code: a for a in book.animals}
    for slip in residents_after_quarantined(_handlings(book, states, on)):
        resident, first = slip.resident, slip.after
        words = (
            f"handled at {resident.at:%H:%M} on {resident.at:%Y-%m-%d}, after {first.animal} "
            f"in quarantine at {first.at:%H:%M}; wash hands, change tools, watch it"
        )
        basis = Basis("residents are cared for first", ORDER, (first.event_id, resident.event_id))
        yield Finding(
            "quarantine.handled_after", Level.LOOK_SOON, words, basis, ids[resident.animal]
        )


def _handlings(book: Book, states: Mapping[int, QuarantineState], on: date) -> Iterator[Handling]:
    since = on - timedelta(days=LOOK_BACK_DAYS - 1)
    occupants = book.occupants(on)
    here = book.animals_here(on)
    released = book.latest(RELEASED, on=on)[RELEASED]
    for event in book.events(*ON_ANIMALS, *ON_ENCLOSURES, since=since, until=on):
        if event.at is not None:
            for animal_id in _handled(event, occupants):
                if animal_id in here:
                    inside = _in_quarantine(event, states.get(animal_id), released.get(animal_id))
                    at = wall_time(event, book.home.zone)
                    yield Handling(book.animals[animal_id].code, at, inside, event.id)


def _handled(event: Event, occupants: Mapping[int, tuple[int, ...]]) -> tuple[int, ...]:
    """The animals touched; hands in an enclosure touch those that live in it."""
    if event.kind in ON_ENCLOSURES:
        return occupants.get(event.enclosure_id or 0, ())
    return () if event.animal_id is None else (event.animal_id,)


def _in_quarantine(event: Event, state: QuarantineState | None, released: Event | None) -> bool:
    if state is not None and state.started <= event.day:
        return True
    return released is not None and event.day <= released.day
