"""What a quarantine asks the keeper to do: checks, looks for mites, samples, release."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import About, Animal, Basis, Task, days_ago_words, every_days
from warmside.plugins.quarantine.clock.checks import CheckDue, Recheck
from warmside.plugins.quarantine.clock.negatives import Progress
from warmside.plugins.quarantine.clock.restarts import MITES
from warmside.plugins.quarantine.clock.state import QuarantineState, due_recheck
from warmside.plugins.quarantine.kinds import CHECKED, SAMPLED
from warmside.plugins.quarantine.odds.methods import taken_by_vet
from warmside.plugins.quarantine.protocol.mites import cycle_of_mites
from warmside.plugins.quarantine.telling.wording import ASK_A_VET, READY

RECORDED_AS = {"weight": "weighed"}
ALSO = {"droppings": "none there counts as looked"}


def tasks_of(animal: Animal, state: QuarantineState, on: date, today: date) -> Iterator[Task]:
    """Everything that is due for one animal in quarantine up to a day.

    What merely became possible is never late: it is due on `today`, not on the day it became so.
    """
    about = About(animal.id)
    look = due_recheck(state, on)
    looked_for = {MITES} if look is not None else set()
    for due in state.checks:
        if due.due <= on and due.check.name not in looked_for:
            yield _check(state, due, about, on)
    if look is not None:
        yield _recheck(state, look, about)
    for progress in state.tests:
        if progress.possible_since is not None and progress.possible_since <= on:
            yield _sample(state, progress, animal, today)
    if state.ready:
        yield _release(state, animal, today)


def _check(state: QuarantineState, due: CheckDue, about: About, on: date) -> Task:
    check = due.check
    last = f"last {days_ago_words(due.last.day, on)}" if due.last else "none on record"
    rule = f"quarantine, {every_days(check.every_days)}, {last}"
    if check.name in ALSO:
        rule += f"; {ALSO[check.name]}"
    source = state.protocol.sources[f"checks.{check.name}.every_days"]
    events = (due.last.id,) if due.last else (state.start_event,)
    kind = RECORDED_AS.get(check.name, CHECKED)
    data = {"check": check.name} if kind == CHECKED else {}
    return Task(
        check.title,
        due.due,
        Basis(rule, source, events),
        about=about,
        settles=kind,
        data=data,
        every_days=check.every_days,
        keepers=check.name == MITES,
    )


def _recheck(state: QuarantineState, recheck: Recheck, about: About) -> Task:
    cycle = state.protocol.rechecks
    rule = (
        f"a mite was seen; look again from day {cycle.from_day} to {cycle.to_day} after it: from "
        "the first new adults to the longest life of one"
    )
    number = state.rechecks.index(recheck) + 1
    return Task(
        f"look for mites again, {number} of {len(state.rechecks)}",
        recheck.day,
        Basis(rule, cycle_of_mites()[1], (recheck.sighting,)),
        about=about,
        settles=CHECKED,
        data={"check": MITES},
        keepers=True,
    )


def _sample(state: QuarantineState, progress: Progress, animal: Animal, today: date) -> Task:
    test = progress.test
    assert progress.possible_since is not None
    rule = f"quarantine, {len(progress.counted)} of {test.negatives} negative"
    if progress.awaited:
        rule += f", {len(progress.awaited)} awaited"
    if progress.possible_since < today:
        rule += f", counts since {progress.possible_since}"
    counted = tuple(s.id for s in (*progress.counted, *progress.awaited))
    by_vet = " by a vet" if taken_by_vet(test.methods) else ""
    return Task(
        f"sample possible{by_vet}: {test.title}",
        max(progress.possible_since, today),
        Basis(
            rule,
            state.protocol.sources[f"tests.{test.name}.negatives"],
            counted,
        ),
        about=About(animal.id),
        settles=SAMPLED,
        data={"test": test.name},
        command=f"warmside quarantine sample {animal.code} {test.name}",
        may=True,
        keepers=True,
    )


def _release(state: QuarantineState, animal: Animal, today: date) -> Task:
    rule = f"day {state.day} of {state.protocol.days}; {READY}; {ASK_A_VET}"
    return Task(
        "release possible",
        max(state.days_over, today),
        Basis(rule, state.protocol.sources["days"], (state.start_event,)),
        about=About(animal.id),
        data={"release": animal.id},
        command=f"warmside quarantine release {animal.code} --to ENCLOSURE",
        may=True,
        asks=("the enclosure that it goes to", "its code"),
        keepers=True,
    )
