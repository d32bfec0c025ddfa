"""What of the round somebody may see."""

from __future__ import annotations

from datetime import date

from warmside.core.asking.ask import Ask
from warmside.core.asking.rounds.round import Stop
from warmside.page.phones.people import Rights


def stops_seen(ask: Ask, rights: Rights, on: date) -> list[Stop]:
    """The tasks that somebody may see and settle, in the order of care."""
    stops = ask.round(on)
    if rights.is_keeper:
        return stops
    places = ask.book.enclosures
    return [
        s
        for s in stops
        if s.enclosure_id is not None
        and rights.may_see(places[s.enclosure_id].code)
        and s.task.settles
        and rights.may_record(s.task.settles)
    ]
