"""The post that settles a task of the round."""

from __future__ import annotations

from werkzeug.wrappers import Response

from warmside.core.asking.ask import Ask
from warmside.core.asking.rounds.round import Stop
from warmside.core.asking.rounds.shown import shown_round
from warmside.core.doing.rounds.settling import Settling, settle
from warmside.core.values.errors import Refused, SentBefore
from warmside.page.posts.done import back, done
from warmside.page.posts.recording import YES
from warmside.page.visits.done_before import settled_before
from warmside.page.visits.seen import stops_seen
from warmside.page.visits.visit import Visit


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
        return back(visit, step=before.step_id)
    raise Refused(before or "that task is done already or has changed; look at the round again")


def _may_settle(visit: Visit, ask: Ask, key: str) -> bool:
    seen: list[Stop] = stops_seen(ask, visit.rights, ask.book.today)
    return any(stop.key == key for stop in seen)
