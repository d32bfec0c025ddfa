"""The post that makes the PDF of a command."""

from __future__ import annotations

from werkzeug.wrappers import Response

from warmside.core.values.errors import NotFound
from warmside.page.files.answer_paper import paper
from warmside.page.visits.questions import BLANK, command_named
from warmside.page.visits.visit import Visit


def post_paper(visit: Visit) -> Response:
    """Make the PDF of a command, to be printed from the phone."""
    command = command_named(visit, visit.typed("ask"))
    if not command.target:
        raise NotFound("that question has no paper")
    given = {b.name: visit.typed(f"{BLANK}{b.name}") for b in command.blanks}
    return paper(visit.page.commands.paper(command, given, visit.session), command.words)
