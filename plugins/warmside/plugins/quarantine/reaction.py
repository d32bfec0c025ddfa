"""What a recorded event means for quarantines: new ones begin, impossible records are refused."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from warmside.api import Book, Event, NewEvent
from warmside.core.record.whereabouts import GONE_KINDS
from warmside.plugins.quarantine.kinds import STARTED
from warmside.plugins.quarantine.reading import current
from warmside.plugins.quarantine.standing import CAME, running_of
from warmside.plugins.quarantine.stored import default_protocol
from warmside.plugins.quarantine.timeline import QuarantineState

LONG_AGO_DAYS = 365  # common practice, no source: an old arrival entered late begins nothing now
NOT_A_NEWCOMER = "bred here"


def begun(book: Book, events: Iterable[Event]) -> Iterator[NewEvent]:
    """A start for each animal that came from elsewhere and is not in quarantine for it yet."""
    for event in events:
        if event.kind in CAME and needs_quarantine(event, book.today) and not _known(book, event):
            yield _start(book, event)


def needs_quarantine(came: Event, today: date) -> bool:
    """Whether an arrival or return asks for a quarantine: from elsewhere, within the last year."""
    recent = came.day >= today - timedelta(days=LONG_AGO_DAYS)
    return recent and came.data.get("how") != NOT_A_NEWCOMER


def _known(book: Book, came: Event) -> bool:
    """Whether a quarantine covers this coming, or the animal has left or died since."""
    assert came.animal_id is not None
    if came.animal_id not in book.animals_here():
        return True
    for start in book.events(STARTED, animal=came.animal_id):
        arrival = start.data["arrival"]
        now = current(book, arrival) if arrival is not None else None
        if now is not None and now.id == came.id:
            return True
    state = running_of(book, came.animal_id, came.day)
    if state is None:
        return False
    return came.kind == "returned" or not _left_since(book, came, state)


def _left_since(book: Book, came: Event, state: QuarantineState) -> bool:
    """Whether the animal went away after its quarantine began and before it came again."""
    gone = book.events(*GONE_KINDS, animal=came.animal_id, since=state.started, until=came.day)
    return bool(gone)


def _start(book: Book, came: Event) -> NewEvent:
    cause = "new arrival" if came.kind == "arrived" else f"return from a {came.data['after']}"
    data = {"protocol": default_protocol(book), "cause": cause, "arrival": came.id}
    return NewEvent(STARTED, came.day, data, came.animal_id, at=came.at)
