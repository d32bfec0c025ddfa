"""The steps that a phone may see and take back."""

from __future__ import annotations

from warmside.core.record.entities import Step
from warmside.page.visits.done_before import SEARCHED
from warmside.page.visits.visit import Visit


def may_undo(visit: Visit, step: Step) -> bool:
    """Whether this phone may see a step and take it back."""
    return visit.rights.is_keeper or step.by == visit.device.name


def step_numbered(visit: Visit, number: str) -> Step | None:
    """The step of that number, if it is one of the newest and this phone may see it."""
    if not number.isascii() or not number.isdigit():
        return None
    with visit.session.read() as book:
        steps = [s for s in book.steps(SEARCHED) if str(s.id) == number]
    return next((s for s in steps if may_undo(visit, s)), None)
