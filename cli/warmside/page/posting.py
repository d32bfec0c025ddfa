"""Posts as the requests of the command line: record, settle, take back."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from urllib.parse import urlencode

from werkzeug.utils import redirect
from werkzeug.wrappers import Response

from warmside.core.answers.parts import Answer
from warmside.core.asking.ask import Ask
from warmside.core.asking.rounds.round import Stop
from warmside.core.asking.rounds.shown import shown_round
from warmside.core.doing.recording import Recording, record
from warmside.core.doing.rounds.settling import Settling, settle
from warmside.core.doing.undoing import Undoing, undo
from warmside.core.record.entities import Step
from warmside.core.session.session import Session
from warmside.core.values.errors import NotFound, Refused, SentBefore
from warmside.page.answer_paper import paper
from warmside.page.done_before import SEARCHED, settled_before, taken_back_before
from warmside.page.doors import local
from warmside.page.forms import FIELD
from warmside.page.said import told_by
from warmside.page.screens.asking_forms import BLANK
from warmside.page.screens.history_screen import may_undo
from warmside.page.screens.round_screen import stops_seen
from warmside.page.screens.tell_screen import command_named
from warmside.page.visit import Visit

YES = "yes"


def post_record(visit: Visit) -> Response:
    """Record one event of one subject."""
    kind, subject = visit.typed("kind"), visit.typed("subject")
    check_may_record(visit, kind, subject)
    wanted = Recording(
        kind,
        (subject,),
        _fields(visit),
        at=visit.at,
        note=visit.typed("note"),
        confirmed=visit.typed("confirm") == YES,
    )
    return done(visit, lambda session: record(session, wanted))


def _fields(visit: Visit) -> dict[str, str]:
    """The fields that were filled in, by name; several words of one are joined."""
    form = visit.request.form
    typed = {
        name.removeprefix(FIELD): ",".join(v.strip() for v in form.getlist(name) if v.strip())
        for name in form
        if name.startswith(FIELD)
    }
    return {name: text for name, text in typed.items() if text}


def check_may_record(visit: Visit, kind: str, subject: str) -> None:
    """Raise unless this phone may record that of that subject."""
    if visit.rights.is_keeper:
        return
    if not visit.rights.may_record(kind):
        raise Refused("that is for the keeper to record; call, if it cannot wait")
    with visit.ask() as ask:
        try:
            visit.enclosure(ask.book, subject)
        except NotFound:
            visit.animal(ask.book, subject)


def post_settle(visit: Visit) -> Response:
    """Settle one task of the round, named by what makes it the very one that was shown."""
    key, value = visit.typed("task"), visit.typed("value")
    with visit.ask() as ask:
        shown = shown_round(ask, ask.book.today)
        number = next((n for n, t in enumerate(shown.tasks, 1) if t.key == key), None)
        may = _may_settle(visit, ask, key)
        before = None if number is not None else settled_before(ask, visit.rights, key)
    if number is None or not may:
        return _gone(visit, before)
    words = (f"{number}={value}" if value else str(number),)
    confirmed = visit.typed("confirm") == YES
    note = visit.typed("note")
    wanted = Settling(words, shown, at=visit.at, note=note, confirmed=confirmed)
    return done(visit, lambda session: settle(session, wanted))


def _gone(visit: Visit, before: str | None) -> Response:
    """Back, if this very post settled the task when it came first; Refused where another did."""
    try:
        with visit.session.step("looked whether it was sent before"):
            pass
    except SentBefore as before:
        return _back(visit, step=before.step_id)
    raise Refused(before or "that task is done already or has changed; look at the round again")


def _may_settle(visit: Visit, ask: Ask, key: str) -> bool:
    seen: list[Stop] = stops_seen(ask, visit.rights, ask.book.today)
    return any(stop.key == key for stop in seen)


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
    return _back(visit, undone=number)


def post_redo(visit: Visit) -> Response:
    """Put the step that was taken back last in force again."""
    number = None
    with suppress(SentBefore):
        number = visit.session.open().redo(visit.session.now, **visit.session.sent).of
    return _back(visit, step=number)


def post_paper(visit: Visit) -> Response:
    """Make the PDF of a command, to be printed from the phone."""
    command = command_named(visit, visit.typed("ask"))
    if not command.target:
        raise NotFound("that question has no paper")
    given = {b.name: visit.typed(f"{BLANK}{b.name}") for b in command.blanks}
    return paper(visit.page.commands.paper(command, given, visit.session), command.words)


def done(visit: Visit, write: Callable[[Session], Answer]) -> Response:
    """Back to where the form was, with the step that was written, now or when it came first."""
    try:
        answer = write(visit.session)
    except SentBefore as before:
        return _back(visit, step=before.step_id)
    lines = told_by(visit.session, answer, keeper=visit.rights.is_keeper)
    kept = visit.page.said.keep(visit.device.id, lines)
    return _back(visit, step=visit.session.written, said=kept)


def _back(visit: Visit, **said: int | str | None) -> Response:
    """Go back (303, so that reloading posts nothing) and say what was done."""
    query = urlencode({name: value for name, value in said.items() if value is not None})
    path = visit.back.partition("?")[0].partition("#")[0]
    return redirect(f"{local(path)}?{query}" if query else path, 303)


def step_numbered(visit: Visit, number: str) -> Step | None:
    """The step of that number, if it is one of the newest and this phone may see it."""
    if not number.isascii() or not number.isdigit():
        return None
    with visit.session.read() as book:
        steps = [s for s in book.steps(SEARCHED) if str(s.id) == number]
    return next((s for s in steps if may_undo(visit, s)), None)
