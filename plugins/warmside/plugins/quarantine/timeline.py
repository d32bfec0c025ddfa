"""The state of an animal's quarantines, computed from its events and nothing else.

The day on which the clock starts is day 0; on day m of m, the earliest end, the days are over. The
clock starts with the quarantine and again with every restart. After a restart only samples of a
later day count; before any, samples from the first day on.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import zip_longest

from warmside.plugins.quarantine.checks import CheckDue, Recheck, checks_due, rechecks
from warmside.plugins.quarantine.events import (
    Checked,
    Event,
    Outcome,
    Released,
    Resulted,
    Sampled,
    in_order,
)
from warmside.plugins.quarantine.missing import (
    Missing,
    missing_checks,
    missing_days,
    missing_rechecks,
    missing_tests,
)
from warmside.plugins.quarantine.negatives import Progress, outcomes_by_sample, progress
from warmside.plugins.quarantine.protocol import Protocol
from warmside.plugins.quarantine.restarts import Restart, restarts
from warmside.plugins.quarantine.spells import Spell, protocol_of, spells


@dataclass(frozen=True, slots=True)
class Waiting:
    """A sample without result; `too_long` beyond the protocol's days of waiting."""

    sample: Sampled
    days: int
    too_long: bool


@dataclass(frozen=True, slots=True)
class QuarantineState:
    """One quarantine on a day: `as_of`, or the day of its release if that came before.

    `missing` is what release waits for, or waited for when it was released. `late_positives` are
    event ids of positive results told after the release. `problems` are events that cannot be
    counted, in words.
    """

    protocol: Protocol
    started: date
    start_event: int
    cause: str
    restarts: tuple[Restart, ...]
    clock_start: date
    as_of: date
    tests: tuple[Progress, ...]
    waiting: tuple[Waiting, ...]
    checks: tuple[CheckDue, ...]
    rechecks: tuple[Recheck, ...]
    missing: tuple[Missing, ...]
    release: Released | None
    late_positives: tuple[int, ...]
    problems: tuple[str, ...]

    @property
    def day(self) -> int:
        """Days since the clock started."""
        return (self.as_of - self.clock_start).days

    @property
    def earliest_end(self) -> date:
        """The day on which the days are over."""
        return self.clock_start + timedelta(days=self.protocol.days)

    @property
    def earliest_release(self) -> date:
        """The first day on which nothing need be missing; the last sample's result comes later."""
        return max([self.as_of, *(m.possible_on for m in self.missing)])

    @property
    def running(self) -> bool:
        """Whether it has not been released."""
        return self.release is None

    @property
    def ready(self) -> bool:
        """Whether nothing is missing for release; it never means that the animal is healthy."""
        return not self.missing

    @property
    def overridden(self) -> bool:
        """Whether it was released while something was missing."""
        return self.release is not None and not self.ready


def quarantines(
    events: Iterable[Event],
    protocols: Mapping[str, Protocol],
    today: date,
    originals: Mapping[str, Protocol] | None = None,
) -> tuple[QuarantineState, ...]:
    """Every quarantine of one animal up to `today`, in order of time.

    Events after `today` are not looked at. `protocols` hold for those that run; one that was
    released is judged by the terms of its release, told against the `originals` (protocols without
    the collection's changes). Raises NotFound for an unknown protocol, BadInput for edits that it
    cannot have.
    """
    known = [e for e in in_order(events) if e.day <= today]
    samples = {e.id: e for e in known if isinstance(e, Sampled)}
    cut = spells(known)
    return tuple(
        _state(
            spell,
            protocol_of(spell, protocols, originals),
            samples,
            today,
            _late(spell, known, later),
        )
        for spell, later in zip_longest(cut, cut[1:])
    )


def running(states: Iterable[QuarantineState]) -> QuarantineState | None:
    """The quarantine that has not been released, if there is one."""
    return next((s for s in states if s.running), None)


def _state(
    spell: Spell,
    protocol: Protocol,
    samples: Mapping[int, Sampled],
    today: date,
    late: tuple[int, ...],
) -> QuarantineState:
    as_of = spell.release.day if spell.release else today
    again = restarts(spell, protocol, samples)
    clock = max([spell.first_day, *(r.day for r in again)])
    first_sample = clock + timedelta(days=1) if again else clock
    results = [e for e in spell.events if isinstance(e, Resulted)]
    told = outcomes_by_sample(results, samples)
    own = [e for e in spell.events if isinstance(e, Sampled)]
    done = [e for e in spell.events if isinstance(e, Checked)]
    tests = tuple(progress(t, own, told, first_sample, as_of) for t in protocol.tests)
    checks = checks_due(protocol.checks, done, spell.first_day, as_of)
    looks = rechecks(done, protocol.rechecks, as_of)
    end = clock + timedelta(days=protocol.days)
    return QuarantineState(
        protocol=protocol,
        started=spell.first_day,
        start_event=spell.starts[0].id,
        cause=spell.starts[0].cause,
        restarts=again,
        clock_start=clock,
        as_of=as_of,
        tests=tests,
        waiting=_waiting(own, told, protocol, as_of),
        checks=checks,
        rechecks=looks,
        missing=(
            *missing_days(end, as_of),
            *missing_tests(tests, as_of),
            *missing_rechecks(looks, as_of),
            *missing_checks(checks, as_of, protocol.checks_up_to_date),
        ),
        release=spell.release,
        late_positives=late,
        problems=_problems(results, samples),
    )


def _waiting(
    own: list[Sampled], told: Mapping[int, frozenset[Outcome]], protocol: Protocol, as_of: date
) -> tuple[Waiting, ...]:
    ages = [(s, (as_of - s.day).days) for s in own if s.id not in told]
    return tuple(Waiting(s, days, days > protocol.result_wait_days) for s, days in ages)


def _late(spell: Spell, known: list[Event], later: Spell | None) -> tuple[int, ...]:
    """Positive results told after the release and before the next quarantine, if there is one."""
    if spell.release is None:
        return ()
    inside = {e.id for s in (spell, later) if s for e in s.events}
    return tuple(
        e.id
        for e in known
        if isinstance(e, Resulted)
        and e.outcome is Outcome.POSITIVE
        and e.at > spell.release.at
        and e.id not in inside
        and (later is None or e.day <= later.first_day)
    )


def _problems(results: Iterable[Resulted], samples: Mapping[int, Sampled]) -> tuple[str, ...]:
    said = []
    for result in results:
        sample = samples.get(result.sample)
        if sample is None:
            said.append(f"result {result.id} names sample {result.sample}, which is not on record")
        elif result.day < sample.day:
            said.append(
                f"result {result.id} of {result.day.isoformat()} is dated before its sample of "
                f"{sample.day.isoformat()}; correct one of the two"
            )
    return tuple(said)
