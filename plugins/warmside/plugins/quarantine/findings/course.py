"""What the keeper should know of one quarantine: long waits, a new start, a short protocol."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from warmside.api import About, Animal, Basis, Finding, Level
from warmside.plugins.quarantine.clock.state import QuarantineState
from warmside.plugins.quarantine.protocol.terms import Cause, Protocol

LONG_GROUPS = ("boa", "python")
LONG = "long"
TOLD_DAYS = 7  # common practice, no source: for so long a restart or an advice is said


def findings_of(animal: Animal, state: QuarantineState, long: Protocol) -> Iterator[Finding]:
    """The findings of a running quarantine; `long` is advised for boas and pythons, at first."""
    about = About(animal.id)
    yield from _awaited(state, about)
    yield from _restarted(state, about)
    yield from _problems(state, about)
    new = state.as_of < state.started + timedelta(days=TOLD_DAYS)
    if new and longer_advised(state, animal, long):
        words = longer_words(state.protocol, long, animal.code)
        rule = "some of their viruses stay hidden for months"
        basis = Basis(rule, long.sources["days"], (state.start_event,))
        yield Finding("quarantine.longer_advised", Level.NOTE, words, basis, about)


def longer_advised(state: QuarantineState, animal: Animal, long: Protocol) -> bool:
    """Whether a boa or python is under a protocol of fewer days than the long one."""
    return animal.species.group in LONG_GROUPS and state.protocol.days < long.days


def longer_words(protocol: Protocol, long: Protocol, code: str) -> str:
    """The suggestion of the long protocol, with the command for it."""
    return (
        f"for boas and pythons {long.days} days are advised, not {protocol.days}; ask a vet; "
        f"to change: warmside quarantine edit {code} --protocol {LONG}"
    )


def not_computed(animal: Animal, words: str) -> Finding:
    """A quarantine that cannot be computed from its records, with what is wrong."""
    basis = Basis("its quarantine cannot be computed")
    return Finding("quarantine.not_computed", Level.ACT_NOW, words, basis, About(animal.id))


def _awaited(state: QuarantineState, about: About) -> Iterator[Finding]:
    for waiting in state.waiting:
        if waiting.too_long:
            words = (
                f"no result for {_days(waiting.days)} of the {waiting.sample.test} sample of "
                f"{waiting.sample.day}; ask the laboratory"
            )
            source = state.protocol.sources["result_wait_days"]
            rule = f"a result within {_days(state.protocol.result_wait_days)}"
            basis = Basis(rule, source, (waiting.sample.id,))
            yield Finding("quarantine.result_awaited", Level.LOOK_SOON, words, basis, about)


def _restarted(state: QuarantineState, about: About) -> Iterator[Finding]:
    """A restart that came of another animal's move, which the keeper may not have seen."""
    since = state.as_of - timedelta(days=TOLD_DAYS)
    for again in state.restarts[-1:]:
        if again.cause is Cause.NEWCOMER and again.day > since:
            words = f"the clock started again on {again.day}: {again.words}{_now(state)}"
            source = state.protocol.sources["restarts.newcomer_in_room"]
            basis = Basis("all in, all out", source, (again.event_id,))
            yield Finding("quarantine.restarted", Level.NOTE, words, basis, about)


def _now(state: QuarantineState) -> str:
    return f"; earliest end now {state.earliest_end}" if state.earliest_end else ""


def _problems(state: QuarantineState, about: About) -> Iterator[Finding]:
    for problem in state.problems:
        basis = Basis("records that cannot be counted", events=(state.start_event,))
        yield Finding("quarantine.not_computed", Level.LOOK_SOON, problem, basis, about)


def _days(count: int) -> str:
    return f"{count} day" if count == 1 else f"{count} days"
