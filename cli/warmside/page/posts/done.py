"""Back to where the form was, with what was done."""

from __future__ import annotations

from collections.abc import Callable
from urllib.parse import urlencode

from werkzeug.utils import redirect
from werkzeug.wrappers import Response

from warmside.core.answers.parts import Answer
from warmside.core.session.session import Session
from warmside.core.values.errors import SentBefore
from warmside.page.phones.doors import local
from warmside.page.visits.said import told_by
from warmside.page.visits.visit import Visit


def done(visit: Visit, write: Callable[[Session], Answer]) -> Response:
    """Back to where the form was, with the step that was written, now or when it came first."""
    try:
        answer = write(visit.session)
    except SentBefore as before:
        return back(visit, step=before.step_id)
    lines = told_by(visit.session, answer, keeper=visit.rights.is_keeper)
    kept = visit.page.said.keep(visit.device.id, lines)
    return back(visit, step=visit.session.written, said=kept)


def back(visit: Visit, **said: int | str | None) -> Response:
    """Go back (303, so that reloading posts nothing) and say what was done."""
    query = urlencode({name: value for name, value in said.items() if value is not None})
    path = visit.back.partition("?")[0].partition("#")[0]
    return redirect(f"{local(path)}?{query}" if query else path, 303)
