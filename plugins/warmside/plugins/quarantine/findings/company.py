"""Animals in quarantine that are not apart: in one enclosure or one room with residents."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date, timedelta

from warmside.api import About, Basis, Finding, Level, Source
from warmside.plugins.quarantine.contact.company import Company, Place

MOST_NAMED = 3
ROOM_TOLD = timedelta(days=7)  # common practice, no source


def company_findings(
    companies: Iterable[Company], sources: Mapping[int, Source], on: date
) -> Iterator[Finding]:
    """Findings on each enclosure; `sources` says by animal id who wants them apart.

    A shared enclosure is found of the enclosure, since it concerns all that live in it. A room that
    is not on record is said for some days, and always in the quarantine's own screens.
    """
    for company in companies:
        if company.inside:
            yield _shared_enclosure(company, sources[company.quarantined[0].animal_id])
        for mine in company.quarantined:
            if not company.enclosure.room.strip():
                if on - mine.since < ROOM_TOLD:
                    yield _room_unknown(mine, sources[mine.animal_id])
            elif company.in_room:
                yield _shared_room(mine, company.in_room, sources[mine.animal_id])


def _shared_enclosure(company: Company, source: Source) -> Finding:
    held, inside = company.quarantined, company.inside
    verb = "is" if len(held) == 1 else "are"
    words = f"{_named(held)} {verb} in quarantine, but in {company.enclosure.code} with "
    events = tuple(p.event_id for p in (*held, *inside[:MOST_NAMED]))
    return Finding(
        "quarantine.shared_enclosure",
        Level.ACT_NOW,
        words + _named(inside),
        Basis("everything passes between those that live together", source, events),
        About(enclosure_id=company.enclosure.id),
    )


def _room_unknown(mine: Place, source: Source) -> Finding:
    words = room_unknown_words(mine.enclosure.code)
    basis = Basis("a newcomer has a room of its own", source, (mine.event_id,))
    about = About(mine.animal_id, mine.enclosure.id)
    return Finding("quarantine.room_unknown", Level.NOTE, words, basis, about)


def room_unknown_words(code: str) -> str:
    """What is not known of an enclosure without a room, and how to say it."""
    return (
        f"{code} has no room on record, so who shares its air is not known; "
        f"say it: warmside enclosure change {code} --room ROOM"
    )


def _shared_room(mine: Place, near: tuple[Place, ...], source: Source) -> Finding:
    words = f"in quarantine, but in room {mine.enclosure.room} with {_named(near)}"
    events = (mine.event_id, *(r.event_id for r in near[:MOST_NAMED]))
    basis = Basis("what one breathes out the others breathe in", source, events)
    about = About(mine.animal_id, mine.enclosure.id)
    return Finding("quarantine.shared_room", Level.LOOK_SOON, words, basis, about)


def _named(places: tuple[Place, ...]) -> str:
    labels = [p.label for p in places]
    rest = len(labels) - MOST_NAMED
    return ", ".join(labels[:MOST_NAMED]) + (f" and {rest} more" if rest > 0 else "")
