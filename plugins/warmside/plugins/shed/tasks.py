"""What a shed asks for: make ready on opaque, record it, look after it, look again at old skin."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from warmside.api import About, Basis, Mark, Source, Task
from warmside.plugins.shed.cycles.aftermath import Aftermath
from warmside.plugins.shed.cycles.animal import CHECK_DAYS, AnimalSheds, left_on_words
from warmside.plugins.shed.cycles.cycle import Stage
from warmside.plugins.shed.kinds import CHECKED, PREPARED

CUSTOM = Source("keepers' custom", Mark.COMMON_PRACTICE)
NEVER_PULL = "never pull it; a vet at once for swelling, dark or dead tissue, discharge or a wound"
RINGS = frozenset({"tail tip", "toes"})


def tasks(sheds: AnimalSheds, recheck_every: float) -> Iterator[Task]:
    """The tasks of one animal that are due on the day, with the reason of each.

    `recheck_every` is in days, between two looks at skin that was left on.
    """
    if sheds.now.stage in (Stage.OPAQUE, Stage.CLEAR) and not sheds.prepared:
        yield _make_ready(sheds)
    if sheds.now.shed is not None and sheds.now.shed.low <= sheds.on:
        yield _record_it(sheds)
    if sheds.last is not None:
        yield from _after(sheds, sheds.last, recheck_every)


def _make_ready(sheds: AnimalSheds) -> Task:
    seen = next(s for s in sheds.history.cycles[-1].seen if s.stage is not Stage.DULL)
    return Task(
        "humid hide or more humidity, and leave it alone",
        seen.day,
        Basis(f"{seen}", CUSTOM, sheds.now.events),
        about=About(sheds.rows.animal_id),
        settles=PREPARED,
    )


def _record_it(sheds: AnimalSheds) -> Task:
    now = sheds.now
    assert now.shed is not None
    note = "it eats its shed skin: look whether the skin is fresh" if sheds.rows.eats_slough else ""
    return Task(
        "has it shed? record how",
        now.shed.low,
        Basis(f"{now.stage} since {now.since}, so usual from then on", now.shed.source, now.events),
        about=About(sheds.rows.animal_id),
        settles="shed",
        note=note,
        asks=("outcome",),
    )


def _after(sheds: AnimalSheds, last: Aftermath, recheck_every: float) -> Iterator[Task]:
    if last.still:
        yield from _look_again(sheds, last, recheck_every)
    elif last.to_be_checked and (sheds.on - last.day).days <= CHECK_DAYS:
        yield Task(
            "old skin on eyes, tail tip, toes?",
            last.day,
            Basis(f"shed on {last.day}", CUSTOM, last.events),
            about=About(sheds.rows.animal_id),
            settles=CHECKED,
            keepers=True,
        )


def _look_again(sheds: AnimalSheds, last: Aftermath, every: float) -> Iterator[Task]:
    due = look_again_on(last, every)
    if due <= sheds.on:
        rule = f"left on at the shed of {last.day}, last looked at on {last.looked or last.day}"
        yield Task(
            f"look again at the {left_on_words(last.still)} left on, humid hide",
            due,
            Basis(rule, CUSTOM, last.events),
            about=About(sheds.rows.animal_id),
            settles=CHECKED,
            note=NEVER_PULL,
            keepers=True,
        )


def look_again_on(shed: Aftermath, every: float) -> date:
    """When skin that was left on is to be looked at again; a ring around a limb every day."""
    days = 1 if RINGS & set(shed.still) else int(every)
    return (shed.looked or shed.day) + timedelta(days=days)
