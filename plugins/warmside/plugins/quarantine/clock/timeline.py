"""The state of an animal's quarantines, computed from its events and nothing else.

The day on which the clock starts is day 0; on day m of m, the earliest end, the days are over. The
clock starts with the quarantine and again with every restart. After a restart only samples of a
later day count; before any, samples from the first day on.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date, timedelta
from itertools import zip_longest
from typing import TypeVar

from warmside.plugins.quarantine.clock.checks import CheckDue, Recheck, checks_due, rechecks
from warmside.plugins.quarantine.clock.events import (
    Checked,
    Died,
    Event,
    Examined,
    Outcome,
    Resulted,
    Sampled,
    in_order,
)
from warmside.plugins.quarantine.clock.missing import (
    Missing,
    missing_checks,
    missing_days,
    missing_rechecks,
    missing_tests,
    missing_visits,
)
from warmside.plugins.quarantine.clock.negatives import Progress, outcomes_by_sample, progress
from warmside.plugins.quarantine.clock.positives import Positive, standing_positives
from warmside.plugins.quarantine.clock.restarts import restarts
from warmside.plugins.quarantine.clock.spells import Spell, protocol_of, spells
from warmside.plugins.quarantine.clock.state import QuarantineState, Waiting
from warmside.plugins.quarantine.protocol.terms import Protocol

E = TypeVar("E")


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
    visits = [e for e in known if isinstance(e, Examined)]
    found = []
    for spell, later in zip_longest(cut, cut[1:]):
        protocol = protocol_of(spell, protocols, originals)
        inside, late = (
            standing_positives(results, samples, visits, protocol)
            for results in (_told(spell, known), _late(spell, known, later))
        )
        found.append(_state(spell, protocol, samples, today, inside, late))
    return tuple(found)


def running(states: Iterable[QuarantineState]) -> QuarantineState | None:
    """The quarantine that has not been released, if there is one."""
    return next((s for s in states if s.running), None)


def _state(
    spell: Spell,
    protocol: Protocol,
    samples: Mapping[int, Sampled],
    today: date,
    positives: tuple[Positive, ...],
    late: tuple[Positive, ...],
) -> QuarantineState:
    as_of = spell.end.day if spell.end else today
    again = restarts(spell, protocol, samples)
    clock = max([spell.first_day, *(r.day for r in again)])
    first_sample = clock + timedelta(days=1) if again else clock
    results, own, done = _of(spell, Resulted), _of(spell, Sampled), _of(spell, Checked)
    told = outcomes_by_sample(results, samples)
    tests = tuple(progress(t, own, told, first_sample, as_of) for t in protocol.tests)
    checks = checks_due(protocol.checks, done, spell.first_day, as_of)
    looks = rechecks(done, protocol.rechecks, as_of)
    end = None if positives else clock + timedelta(days=protocol.days)
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
            *missing_visits(positives, as_of),
            *_missing(protocol, end, as_of, tests, checks, looks),
        ),
        release=spell.release,
        died=spell.end.day if isinstance(spell.end, Died) else None,
        positives=positives,
        late_positives=late,
        problems=_problems(results, samples),
    )


def _of(spell: Spell, kind: type[E]) -> list[E]:
    return [e for e in spell.events if isinstance(e, kind)]


def _missing(
    protocol: Protocol,
    end: date | None,
    as_of: date,
    tests: tuple[Progress, ...],
    checks: tuple[CheckDue, ...],
    looks: tuple[Recheck, ...],
) -> tuple[Missing, ...]:
    return (
        *(missing_days(end, as_of) if end else ()),
        *missing_tests(tests, as_of),
        *missing_rechecks(looks, as_of),
        *missing_checks(checks, as_of, protocol.checks_up_to_date),
    )


def _waiting(
    own: list[Sampled], told: Mapping[int, frozenset[Outcome]], protocol: Protocol, as_of: date
) -> tuple[Waiting, ...]:
    ages = [(s, (as_of - s.day).days) for s in own if s.id not in told]
    return tuple(Waiting(s, days, days > protocol.result_wait_days) for s, days in ages)


def _told(spell: Spell, known: Iterable[Event]) -> list[Resulted]:
    """Its results; for one that runs, those of earlier quarantines, too: they stand on."""
    if spell.end is None:
        return [e for e in known if isinstance(e, Resulted)]
    return _of(spell, Resulted)


def _late(spell: Spell, known: list[Event], later: Spell | None) -> tuple[Resulted, ...]:
    """Results told after the release and before the next quarantine, if there is one."""
    if spell.release is None:
        return ()
    inside = {e.id for s in (spell, later) if s for e in s.events}
    return tuple(
        e
        for e in known
        if isinstance(e, Resulted)
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
