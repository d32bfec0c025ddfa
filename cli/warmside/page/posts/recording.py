"""The post that records an event, and who may send it."""

from __future__ import annotations

from werkzeug.wrappers import Response

from warmside.core.doing.recording import Recording, record
from warmside.core.values.errors import NotFound, Refused
from warmside.page.pieces.forms import FIELD
from warmside.page.posts.done import done
from warmside.page.visits.visit import Visit

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
