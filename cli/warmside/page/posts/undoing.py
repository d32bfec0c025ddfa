"""Posts that take a step back, or put it in force again."""

from __future__ import annotations

from contextlib import suppress

from werkzeug.wrappers import Response

from warmside.core.doing.undoing import Undoing, undo
from warmside.core.values.errors import Refused, SentBefore
from warmside.page.posts.done import back
from warmside.page.visits.done_before import SEARCHED, taken_back_before
from warmside.page.visits.own_steps import may_undo
from warmside.page.visits.visit import Visit


def post_undo(visit: Visit) -> Response:
    """Take a step back; a sitter only what was done with this phone."""
    number = visit.number("step")
    with visit.session.read() as book:
        found = next((s for s in book.steps(SEARCHED) if s.id == number), None)
        taken_back = taken_back_before(book, found) if found else None
    if not visit.rights.is_keeper and (found is None or not may_undo(visit, found)):
        raise Refused("only the keeper may take that back")
    try:
        undo(visit.session, Undoing(number))
    except SentBefore:
        pass
    except Refused as refusal:
        raise Refused(taken_back or str(refusal)) from refusal
    return back(visit, undone=number)


def post_redo(visit: Visit) -> Response:
    """Put the step that was taken back last in force again."""
    number = None
    with suppress(SentBefore):
        number = visit.session.open().redo(visit.session.now, **visit.session.sent).of
    return back(visit, step=number)
