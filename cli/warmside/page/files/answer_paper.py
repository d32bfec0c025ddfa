"""An answer as a PDF, to be printed from the phone; made when it is asked for, kept nowhere."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

from msgspec.structs import replace
from werkzeug.wrappers import Response

from warmside.core.file.pictures.places import places
from warmside.faces.paper.pdf import render_pdf
from warmside.page.visits.questions import command_named, given_in
from warmside.page.visits.visit import Visit, look_of


def answer_paper(visit: Visit) -> Response:
    """The answer to what stands in the address."""
    command = command_named(visit, visit.asked("ask"))
    answer = visit.page.commands.answer(command, given_in(visit, command), visit.session)
    with visit.session.read() as book:
        look = replace(look_of(book), pictures=places(visit.page.live.path))
        today = book.today
    written = "" if str(today) in answer.title else f"written {today}"
    with TemporaryDirectory() as folder:
        target = Path(folder) / "answer.pdf"
        render_pdf(answer, look, target, date_line=written)
        made = target.read_bytes()
    return paper(made, command.words)


def paper(made: bytes, words: str) -> Response:
    """A PDF that a browser shows or keeps under the words of its command."""
    name = f'inline; filename="{words.replace(" ", "-")}.pdf"'
    return Response(made, mimetype="application/pdf", headers={"Content-Disposition": name})
