"""Events as they are entered, with what they are judged by."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from warmside.api import Ask, Event
from warmside.plugins.quarantine.clock.state import QuarantineState
from warmside.plugins.quarantine.clock.timeline import quarantines, running
from warmside.plugins.quarantine.entry.records import Entered, Release
from warmside.plugins.quarantine.kinds import KINDS, RELEASED, RESULTED
from warmside.plugins.quarantine.protocol.typed import terms_of
from warmside.plugins.quarantine.reading.events import current, events_of
from warmside.plugins.quarantine.reading.standing import quarantines_of
from warmside.plugins.quarantine.reading.stored import originals, protocols

OWN = frozenset(kind.name for kind in KINDS)


def entered(ask: Ask, events: Iterable[Event]) -> Iterator[Entered]:
    """Those of the events that are of a quarantine; a bad edit of terms raises BadInput."""
    for event in events:
        if event.kind in OWN and event.animal_id is not None:
            held = _held_in(ask, event, event.animal_id)
            animal = ask.book.animals[event.animal_id]
            sample = current(ask.book, event.data["sample"]) if event.kind == RESULTED else None
            release = _release(ask, event, held) if event.kind == RELEASED else None
            yield Entered(event, animal, held, protocols(ask), sample, release)


def _held_in(ask: Ask, event: Event, animal_id: int) -> QuarantineState | None:
    """The quarantine in which the event lies."""
    states = quarantines_of(ask, animal_id, event.day)
    last = states[-1] if states else None
    if last is None or (last.release is not None and last.release.day < event.day):
        return None
    return last


def _release(ask: Ask, event: Event, held: QuarantineState | None) -> Release | None:
    if held is None or held.release is None or held.release.id != event.id:
        return None
    if _is_correction(ask, event):
        return None
    state = _as_it_ran(ask, event)
    return Release(state, terms_of(state.protocol, originals(ask.book)[state.protocol.name]))


def _is_correction(ask: Ask, event: Event) -> bool:
    """Whether the event stands in the place of a corrected one."""
    same = ask.book.events(event.kind, animal=event.animal_id, corrected=True)
    return any(e.replaced_by == event.id for e in same)


def _as_it_ran(ask: Ask, release: Event) -> QuarantineState:
    """The quarantine as it was without the release, under the protocols that hold now."""
    assert release.animal_id is not None
    events = events_of(ask.book, release.animal_id, release.day)
    others = (e for e in events if e.id != release.id)
    before = running(quarantines(others, protocols(ask), release.day))
    assert before is not None, "a release ends a quarantine that ran"
    return before
