"""Refuses records of a quarantine that cannot be: before they are written, whoever writes them."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date

from warmside.api import Animal, BadInput, Event, NotFound, Refused, near_miss, quoted
from warmside.plugins.quarantine import kinds
from warmside.plugins.quarantine.clock.state import QuarantineState
from warmside.plugins.quarantine.entry.records import Entered
from warmside.plugins.quarantine.odds.methods import methods
from warmside.plugins.quarantine.protocol.terms import TestWanted, named_protocol

NOTHING_SEEN = ("none", "none there", "nothing", "normal", "clean", "no")


def refuse_impossible(entered: Entered) -> None:
    """Raise BadInput, NotFound or Refused for an event that cannot be."""
    _CHECKS[entered.event.kind](entered)


def refuse_result(result: Event, sample: Event | None) -> None:
    """Raise NotFound for a result without its sample, BadInput for one dated before it."""
    if sample is None or sample.kind != kinds.SAMPLED or sample.animal_id != result.animal_id:
        raise NotFound(
            f"event {result.data['sample']} is no sample of this animal; "
            "numbers are in: warmside history"
        )
    if result.day < sample.day:
        raise BadInput(
            f"the result of {result.day} is before its sample of {sample.day}; "
            "say when it came with --at"
        )


def not_in_quarantine(animal: Animal, on: date) -> Refused:
    """The refusal of what needs a running quarantine."""
    return Refused(
        f"{animal.label} is not in quarantine on {on}; begin one: "
        f"warmside quarantine start {animal.code}"
    )


def still_missing(missing: Iterable[str], animal: Animal) -> Refused:
    """The refusal of a release, with the list of what is missing."""
    return Refused(
        f"{animal.label} is not released, still missing: {'; '.join(missing)}; to release it all "
        f"the same: warmside quarantine release {animal.code} --to ENCLOSURE --override REASON"
    )


def _started(e: Entered) -> None:
    named_protocol(e.protocols, e.event.data["protocol"])


def _within(e: Entered) -> QuarantineState:
    if e.held is None:
        raise not_in_quarantine(e.animal, e.event.day)
    return e.held


def _sampled(e: Entered) -> None:
    protocol = _within(e).protocol
    name, how = e.event.data["test"], e.event.data["method"]
    test = protocol.test(name)
    if test is None:
        known = [t.name for t in protocol.tests]
        raise NotFound(
            f"protocol {protocol.name} has no test {quoted(name)}{near_miss(name, known)}; "
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


def _checked(e: Entered) -> None:
    protocol, name = _within(e).protocol, e.event.data["check"]
    known = [c.name for c in protocol.checks]
    if name not in known:
        raise NotFound(
            f"protocol {protocol.name} has no check {quoted(name)}"
            f"{near_miss(name, known)}; its checks: {', '.join(known)}"
        )
    _refuse_unsaid(e)
    if name == "weight":
        raise BadInput("a weighing is recorded with its weight: warmside record weighed EMB=412g")


def _refuse_unsaid(e: Entered) -> None:
    """Refuse words for what was seen in a check that is recorded as clean."""
    data, code = e.event.data, e.animal.code
    seen = data["what"].strip()
    if not seen or data["found"] or seen.casefold() in NOTHING_SEEN:
        return
    if data["check"] == "droppings":
        raise BadInput(
            f"{quoted(seen)} is how droppings look; record it with: "
            f"warmside record defecated {code}=loose"
        )
    raise BadInput(
        f"{quoted(seen)} was seen, but the check is recorded as clean; say it with: "
        f"warmside quarantine check {code} {data['check']} --found --what WORDS"
    )


def _released(e: Entered) -> None:
    within, animal = _within(e), e.animal
    if within.release is None or within.release.id != e.event.id:
        raise Refused(
            f"{animal.label} is not in quarantine on {e.event.day} at that time; "
            "say when it was released with --at"
        )
    judged = e.release.state if e.release else within
    if judged.missing and not e.event.data["reason"].strip():
        raise still_missing([m.words for m in judged.missing], animal)
    if e.release and e.event.data["terms"] != e.release.terms:
        raise Refused(f"release it with: warmside quarantine release {animal.code} --to ENCLOSURE")


_CHECKS: dict[str, Callable[[Entered], object]] = {
    kinds.STARTED: _started,
    kinds.EDITED: _within,
    kinds.RESTARTED: _within,
    kinds.SAMPLED: _sampled,
    kinds.RESULTED: lambda e: refuse_result(e.event, e.sample),
    kinds.CHECKED: _checked,
    kinds.RELEASED: _released,
}
