"""What to do now, from the stage and the last outcomes; advice of the trade, never a diagnosis."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from msgspec import Struct

from warmside.api import Source, sourced_rows
from warmside.plugins.shed.cycles.cycle import Stage
from warmside.plugins.shed.cycles.shipped import PACKAGE


class Outcome(Struct, frozen=True):
    """How a shed came off: `one piece`, `pieces`, `eaten` or `not said`, and where skin stayed on.

    `outcome` None says that the shed is on record but not yet looked at.
    """

    day: date
    outcome: str | None
    retained: tuple[str, ...] = ()


class Advice(Struct, frozen=True):
    """One piece of advice; `caution` marks what can hurt the animal."""

    text: str
    caution: bool
    source: Source


def on_stage(stage: Stage, late: bool = False, eats_slough: bool = False) -> tuple[Advice, ...]:
    """Advice for the stage an animal is in; `late` where its usual window has passed."""
    if stage is Stage.SHED:
        return _rows("check eaten" if eats_slough else "check")
    return (*_rows(stage.value), *(_rows("late") if late else ()))


def after_sheds(outcomes: Sequence[Outcome], eats_slough: bool = False) -> tuple[Advice, ...]:
    """Advice after the last of an animal's sheds, given oldest first; nothing without any."""
    if not outcomes:
        return ()
    last = outcomes[-1]
    if last.retained:
        return _left_on(outcomes)
    if last.outcome is None:
        return on_stage(Stage.SHED, eats_slough=eats_slough)
    return _rows("pieces" if last.outcome == "pieces" else "good")


def retained_in_a_row(outcomes: Sequence[Outcome]) -> int:
    """How many sheds up to the last one, in a row, left skin on; from 2 a vet should see it."""
    count = 0
    for outcome in reversed(outcomes):
        if not outcome.retained:
            break
        count += 1
    return count


def _left_on(outcomes: Sequence[Outcome]) -> tuple[Advice, ...]:
    retained = set(outcomes[-1].retained)
    found = ["retained again"] if retained_in_a_row(outcomes) > 1 else []
    found += ["spectacle"] if "spectacle" in retained else []
    found += ["ring"] if retained & {"tail tip", "toes"} else []
    return tuple(a for situation in (*found, "retained") for a in _rows(situation))


def _rows(situation: str) -> tuple[Advice, ...]:
    found = (r for r in sourced_rows(PACKAGE, "advice") if r["situation"] == situation)
    return tuple(Advice(r["text"], r["caution"], r.source) for r in found)
