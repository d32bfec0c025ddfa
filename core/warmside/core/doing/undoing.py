"""Taking a step back, and putting it in force again."""

from __future__ import annotations

from msgspec import Struct

from warmside.core.answers.parts import Answer, said
from warmside.core.session.session import Session
from warmside.core.values.questions import Question


class Undoing(Struct, frozen=True):
    """The step to take back, the last one by default; `sure` is asked for where one can ask."""

    step: int | None = None
    preview: bool = False
    sure: bool = True


def undo(session: Session, wanted: Undoing) -> Answer:
    """Take the step back, whatever it wrote."""
    last = session.open().step_to_undo(wanted.step, **session.sent)
    if wanted.preview:
        return said(f"would take back step {last.id}: {last.words}", hints=["warmside undo"])
    question = f"Take back step {last.id}: {last.words}?"
    Question("sure", question, "--yes", yes_or_no=True).answered(wanted.sure)
    done = session.open().undo(session.now, last.id, **session.sent)
    return said(f"took back step {done.id}: {done.words}", hints=["warmside redo (do it again)"])


def redo(session: Session) -> Answer:
    """Put the step that was taken back last in force again."""
    done = session.open().redo(session.now, **session.sent)
    return said(f"done again, step {done.of}: {done.words}", hints=["warmside undo"])
