"""What goes wrong, as a page; with a button where the keeper may say that it is right."""

from __future__ import annotations

import sys
import traceback

from werkzeug.wrappers import Response

from warmside.core.values.errors import (
    BadInput,
    Busy,
    Doubtful,
    FileProblem,
    NotFound,
    Refused,
    WarmsideError,
)
from warmside.core.values.questions import Unanswered
from warmside.faces.web.markup import Child, Markup, element, unbroken
from warmside.page.pieces.frame import TOKEN, post, screen
from warmside.page.pieces.page_words import told
from warmside.page.visits.visit import Visit

STATUS: tuple[tuple[type[Exception], int], ...] = (
    (Busy, 503),
    (FileProblem, 503),
    (NotFound, 404),
    (Unanswered, 409),
    (Refused, 409),
    (BadInput, 400),
    (WarmsideError, 500),
)
NOTHING = "Nothing was written."
ITSELF = "A fault in Warmside itself; nothing was written. What stands at the desk is told there."


def refused(visit: Visit, token: str, problem: Exception) -> Response:
    """The page that says what went wrong, and how to go on."""
    status = next((code for kind, code in STATUS if isinstance(problem, kind)), 500)
    known = isinstance(problem, WarmsideError)
    if not known:
        traceback.print_exception(problem, file=sys.stderr)
    back = visit.back if visit.request.method == "POST" else "/"
    if isinstance(problem, Doubtful) and visit.request.method == "POST":
        body = _doubt(visit, problem, back)
        return screen(visit.device, "Is it right?", body, token=token, status=status)
    words = told(_without_folder(str(problem), visit)) if known else ITSELF
    said: list[Child] = [
        element("h1", "That did not work"),
        element("p", unbroken(words), class_="caution", role="alert"),
        element("p", NOTHING) if visit.request.method == "POST" and known else None,
        element("p", element("a", "Back", href=back, class_="button")),
    ]
    return screen(visit.device, "That did not work", said, token=token, status=status)


def _doubt(visit: Visit, doubt: Doubtful, back: str) -> list[Markup]:
    """The reasons, and the same form again with a yes in it; its moment stays what it was."""
    left_out = ("token", "confirm", "age", "at")
    sent = [
        element("input", type="hidden", name=name, value=value)
        for name, value in visit.request.form.items(multi=True)
        if name not in left_out
    ]
    at = element("input", type="hidden", name="at", value=visit.at) if visit.at else None
    yes = element("input", type="hidden", name="confirm", value="yes")
    button = element("button", "It is right, record it")
    said = [element("p", unbroken(told(d)), class_="caution", role="alert") for d in doubt.doubts]
    return [
        element("h1", "Is it right?"),
        *said,
        post(visit.request.path, TOKEN, sent, at, yes, button),
        element("p", element("a", "No, go back", href=back, class_="button")),
    ]


def _without_folder(text: str, visit: Visit) -> str:
    """The words without where the desk keeps its file, which is no business of a sitter's phone."""
    path = visit.page.live.path
    return text.replace(str(path), f"“{path.name}”")
