"""The record of one animal as the plain events of a quarantine."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date, datetime

from warmside.api import Book, NotFound
from warmside.api import Event as Recorded
from warmside.plugins.quarantine import kinds
from warmside.plugins.quarantine.clock.events import (
    Checked,
    Died,
    Edited,
    Event,
    Examined,
    Newcomer,
    Outcome,
    Released,
    Restarted,
    Resulted,
    Returned,
    Sampled,
    Started,
)
from warmside.plugins.quarantine.contact.newcomers import newcomers
from warmside.plugins.quarantine.protocol.typed import read_edits
from warmside.plugins.quarantine.reading.deaths import deaths_beside
from warmside.plugins.quarantine.reading.stays import stays
from warmside.plugins.quarantine.reading.wall_clock import wall_time

CAME = ("arrived", "returned")
UNLIKE_NORMAL = ("loose", "bloody", "undigested")
READ_KINDS = (
    *(k.name for k in kinds.KINDS),
    *("returned", "weighed", "defecated", "examined", "died"),
)


def current(book: Book, id: int) -> Recorded | None:
    """The event that stands now for that number, however often it was corrected."""
    try:
        event = book.event(id)
        while event.replaced_by is not None:
            event = book.event(event.replaced_by)
    except NotFound:  # its step was undone
        return None
    return event


def awaited(book: Book, animal_id: int) -> list[Recorded]:
    """The samples of an animal that have no result."""
    told = {
        now.id
        for r in book.events(kinds.RESULTED, animal=animal_id)
        if (now := current(book, r.data["sample"])) is not None
    }
    return [s for s in book.events(kinds.SAMPLED, animal=animal_id) if s.id not in told]


def events_of(book: Book, animal_id: int, on: date) -> list[Event]:
    """All that happened to an animal's quarantines up to a day; nothing without a start."""
    recorded = book.events(*READ_KINDS, animal=animal_id, until=on)
    found = [e for r in recorded if (e := _event(book, r)) is not None]
    starts = [e.day for e in found if isinstance(e, Started)]
    if not starts:
        return []
    first = min(starts)
    met = _newcomers(book, animal_id, on, first, found)
    return [*found, *met, *deaths_beside(book, animal_id, on, first)]


def _newcomers(
    book: Book, animal_id: int, on: date, since: date, found: Iterable[Event]
) -> list[Newcomer]:
    """Whom it met; those that it met by its very release came after its quarantine."""
    ends = {e.at for e in found if isinstance(e, Released)}
    met = newcomers(stays(book, on, since), book.animals[animal_id].code)
    return [n for n in met if n.at not in ends]


def _event(book: Book, recorded: Recorded) -> Event | None:
    at = wall_time(recorded, book.home.zone)
    return _READERS[recorded.kind](book, recorded, at)


def _started(book: Book, r: Recorded, at: datetime) -> Started | None:
    """The start; one that an arrival began stands at its day, wherever that was corrected to."""
    arrival = r.data.get("arrival")
    if arrival is not None:
        now = current(book, arrival)
        if now is not None and now.animal_id != r.animal_id:
            return None
        if now is not None and now.id != arrival and r.day == book.event(arrival).day:
            at = wall_time(now, book.home.zone)
    return Started(r.id, at, r.data["protocol"], r.data["cause"], read_edits(r.data["edits"]))


def _resulted(book: Book, r: Recorded, at: datetime) -> Resulted:
    sample = current(book, r.data["sample"])
    id = sample.id if sample is not None else r.data["sample"]
    return Resulted(r.id, at, id, Outcome(r.data["outcome"]))


def _released(book: Book, r: Recorded, at: datetime) -> Released:
    d = r.data
    return Released(r.id, at, d["reason"], d["to"], read_edits(d["terms"]))


_READERS: dict[str, Callable[[Book, Recorded, datetime], Event | None]] = {
    kinds.STARTED: _started,
    kinds.EDITED: lambda _, r, at: Edited(r.id, at, read_edits(r.data["edits"])),
    kinds.RESTARTED: lambda _, r, at: Restarted(r.id, at, r.data["cause"]),
    kinds.SAMPLED: lambda _, r, at: Sampled(r.id, at, r.data["test"], r.data["method"]),
    kinds.RESULTED: _resulted,
    kinds.CHECKED: lambda _, r, at: Checked(
        r.id, at, r.data["check"], r.data["found"], r.data["what"]
    ),
    kinds.RELEASED: _released,
    "examined": lambda _, r, at: Examined(r.id, at),
    "died": lambda _, r, at: Died(r.id, at),
    "returned": lambda _, r, at: Returned(r.id, at, r.data["after"]),
    "weighed": lambda _, r, at: Checked(r.id, at, "weight"),
    "defecated": lambda _, r, at: Checked(
        r.id, at, "droppings", r.data["looks"] in UNLIKE_NORMAL, r.data["looks"]
    ),
}
