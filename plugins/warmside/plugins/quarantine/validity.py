"""Refuses records of a quarantine that cannot be: before they are written, whoever writes them."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from warmside.api import BadInput, Book, Event, NotFound, Refused, near_miss, quoted
from warmside.plugins.quarantine import kinds
from warmside.plugins.quarantine.performance import methods
from warmside.plugins.quarantine.protocol import TestWanted
from warmside.plugins.quarantine.reading import current, events_of
from warmside.plugins.quarantine.standing import quarantines_of
from warmside.plugins.quarantine.stored import named_protocol, originals, protocols
from warmside.plugins.quarantine.timeline import QuarantineState, quarantines, running
from warmside.plugins.quarantine.typed_edits import terms_of


def check(book: Book, events: Iterable[Event]) -> None:
    """Raise BadInput, NotFound or Refused for the first event that cannot be."""
    for event in events:
        if event.kind in _CHECKS and event.animal_id is not None:
            _CHECKS[event.kind](book, event, _held_in(book, event))


def refused_for(missing: Iterable[str], label: str, code: str) -> Refused:
    """The refusal of a release, with the list of what is missing."""
    return Refused(
        f"{label} is not released, still missing: {'; '.join(missing)}; to release it all the "
        f"same: warmside quarantine release {code} --to ENCLOSURE --override REASON"
    )


def _held_in(book: Book, event: Event) -> QuarantineState | None:
    """The quarantine in which the event lies; computing it refuses impossible edits."""
    assert event.animal_id is not None
    states = quarantines_of(book, event.animal_id, event.day)
    last = states[-1] if states else None
    if last is None or (last.release is not None and last.release.day < event.day):
        return None
    return last


def _check_started(book: Book, event: Event, state: QuarantineState | None) -> None:
    named_protocol(protocols(book), event.data["protocol"])


def _check_within(book: Book, event: Event, state: QuarantineState | None) -> QuarantineState:
    if state is None:
        assert event.animal_id is not None
        animal = book.animals[event.animal_id]
        raise Refused(
            f"{animal.label} is not in quarantine on {event.day}; begin one: "
            f"warmside quarantine start {animal.code}"
        )
    return state


def _check_sampled(book: Book, event: Event, state: QuarantineState | None) -> None:
    within = _check_within(book, event, state)
    name, how = event.data["test"], event.data["method"]
    test = within.protocol.test(name)
    if test is None:
        known = [t.name for t in within.protocol.tests]
        raise NotFound(
            f"protocol {within.protocol.name} has no test {quoted(name)}{near_miss(name, known)}; "
            f"its tests: {', '.join(known)}"
        )
    if how and how not in _methods_of(test):
        known = list(_methods_of(test))
        raise NotFound(
            f"{quoted(how)} is no method of the test {name}{near_miss(how, known)}; "
            f"its methods: {', '.join(known)}"
        )


def _methods_of(test: TestWanted) -> tuple[str, ...]:
    return test.methods or tuple(m.key for m in methods())


def _check_resulted(book: Book, event: Event, state: QuarantineState | None) -> None:
    sample = current(book, event.data["sample"])
    if sample is None or sample.kind != kinds.SAMPLED or sample.animal_id != event.animal_id:
        raise NotFound(
            f"event {event.data['sample']} is no sample of this animal; "
            "numbers are in: warmside history"
        )
    if event.day < sample.day:
        raise BadInput(
            f"the result of {event.day} is before its sample of {sample.day}; "
            "say when it came with --at"
        )


def _check_checked(book: Book, event: Event, state: QuarantineState | None) -> None:
    within = _check_within(book, event, state)
    name = event.data["check"]
    known = [c.name for c in within.protocol.checks]
    if name not in known:
        raise NotFound(
            f"protocol {within.protocol.name} has no check {quoted(name)}"
            f"{near_miss(name, known)}; its checks: {', '.join(known)}"
        )
    if name == "weight":
        raise BadInput("a weighing is recorded with its weight: warmside record weighed EMB=412g")


def _check_released(book: Book, event: Event, state: QuarantineState | None) -> None:
    within = _check_within(book, event, state)
    assert event.animal_id is not None
    animal = book.animals[event.animal_id]
    if within.release is None or within.release.id != event.id:
        raise Refused(
            f"{animal.label} is not in quarantine on {event.day} at that time; "
            "say when it was released with --at"
        )
    judged = within if _is_correction(book, event) else _as_it_ran(book, event)
    if judged.missing and not event.data["reason"].strip():
        raise refused_for([m.words for m in judged.missing], animal.label, animal.code)
    name = judged.protocol.name
    if judged is not within and event.data["terms"] != terms_of(
        judged.protocol, originals(book)[name]
    ):
        raise Refused(f"release it with: warmside quarantine release {animal.code} --to ENCLOSURE")


def _is_correction(book: Book, event: Event) -> bool:
    """Whether the event stands in the place of a corrected one, and so keeps its terms."""
    same = book.events(event.kind, animal=event.animal_id, corrected=True)
    return any(e.replaced_by == event.id for e in same)


def _as_it_ran(book: Book, release: Event) -> QuarantineState:
    """The quarantine as it was without the release, under the protocols that hold now."""
    assert release.animal_id is not None
    events = events_of(book, release.animal_id, release.day)
    before = running(
        quarantines((e for e in events if e.id != release.id), protocols(book), release.day)
    )
    assert before is not None, "a release ends a quarantine that ran"
    return before


_CHECKS: dict[str, Callable[[Book, Event, QuarantineState | None], object]] = {
    kinds.STARTED: _check_started,
    kinds.EDITED: _check_within,
    kinds.RESTARTED: _check_within,
    kinds.SAMPLED: _check_sampled,
    kinds.RESULTED: _check_resulted,
    kinds.CHECKED: _check_checked,
    kinds.RELEASED: _check_released,
}
