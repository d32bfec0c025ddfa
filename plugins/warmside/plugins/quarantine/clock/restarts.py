"""Every restart of the clock, with its cause and the event that says so."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from msgspec import Struct

from warmside.plugins.quarantine.clock.events import (
    Checked,
    DiedBeside,
    Event,
    Newcomer,
    Outcome,
    Restarted,
    Resulted,
    Returned,
    Sampled,
    Started,
)
from warmside.plugins.quarantine.clock.spells import Spell
from warmside.plugins.quarantine.protocol.terms import Cause, Protocol

MITES = "mites"  # the check whose finding is a mite


class Restart(Struct, frozen=True):
    """The clock starts again on that day; day 0 is the day itself."""

    day: date
    cause: Cause
    words: str
    event_id: int


def restarts(
    spell: Spell, protocol: Protocol, samples: Mapping[int, Sampled]
) -> tuple[Restart, ...]:
    """The restarts of one quarantine by day, those that the protocol switches off left out.

    A positive result restarts from the day on which it was told (never before its sample). An
    animal that came on the day of the start came together with this one and restarts nothing.
    """
    found = [_restart(event, spell, samples, protocol) for event in spell.events]
    kept = [r for r in found if r is not None and protocol.restarts_on(r.cause)]
    return tuple(sorted(kept, key=lambda r: (r.day, r.event_id)))


def _restart(
    event: Event, spell: Spell, samples: Mapping[int, Sampled], protocol: Protocol
) -> Restart | None:
    match event:
        case Started() if event is not spell.starts[0]:
            words = f"started again: {event.cause}" if event.cause else "started again"
            return Restart(event.day, Cause.STARTED_AGAIN, words, event.id)
        case Newcomer() if event.day > spell.first_day:
            words = f"{event.animal} came to share the air"
            return Restart(event.day, Cause.NEWCOMER, words, event.id)
        case Returned() if event.day > spell.first_day:
            return Restart(event.day, Cause.RETURN, f"returned: {event.after}", event.id)
        case Restarted():
            return Restart(event.day, Cause.KEEPER, event.cause, event.id)
        case Checked(check=name, found=True) if name == MITES:
            return Restart(event.day, Cause.MITES, "a mite was seen", event.id)
        case DiedBeside():
            return Restart(event.day, Cause.DEATH, f"{event.animal} died beside it", event.id)
        case Resulted(outcome=Outcome.POSITIVE):
            return _positive(event, samples.get(event.sample), protocol)
    return None


def _positive(result: Resulted, sample: Sampled | None, protocol: Protocol) -> Restart:
    if sample is None:
        return Restart(result.day, Cause.POSITIVE, "a test was positive", result.id)
    words = f"{protocol.title_of(sample.test)} positive, sampled {sample.day.isoformat()}"
    return Restart(max(result.day, sample.day), Cause.POSITIVE, words, result.id)
