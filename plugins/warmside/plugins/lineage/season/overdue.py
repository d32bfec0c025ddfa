"""Whether a female is late or in trouble with laying: it is never told what is wrong with her."""

from __future__ import annotations

from datetime import date, timedelta

from msgspec import Struct

from warmside.plugins.lineage.season.course import Course, Sign
from warmside.plugins.lineage.season.windows import Window

LAYING_LOOK, LAYING_ACT = 1, 2
"""Days after laying began until it is looked at, and until it wants a vet: 24 to 48 hours (common
practice, no source)."""
LONG_DAYS = 150
"""So long gravid without a known window is worth a vet's look (common practice, no source)."""
LONG_OF_GROUP = {"gecko": 60, "agama": 60}
"""Shorter for those that lay within some weeks (common practice, no source)."""
NOT_WAITING = "a vet, not waiting"


class Late(Struct, frozen=True):
    """What is late, how pressing (`act` or only a look), since which day, by which records."""

    act: bool
    words: str
    rule: str
    events: tuple[int, ...]


def late(
    course: Course,
    window: Window | None,
    late_days: float,
    on: date,
    *,
    bears_live: bool = False,
    group: str = "",
) -> Late | None:
    """What is late on a day; None where nothing is. `group` is that of her species."""
    what = "give birth" if bears_live else "lay"
    if (begun := _laying(course, on)) or window is None:
        return begun or _long_gravid(course, on, LONG_OF_GROUP.get(group, LONG_DAYS))
    return _over(course, window, late_days, on, what)


def _laying(course: Course, on: date) -> Late | None:
    """Laying that began and has no end on record."""
    begun = course.newest(Sign.LAYING)
    if begun is None or (on - begun.day).days < LAYING_LOOK:
        return None
    act = (on - begun.day).days >= LAYING_ACT
    since = f"laying began on {begun.day} and no end is on record"
    told = f"{NOT_WAITING}" if act else "look now; straining or weakness is for a vet at once"
    return Late(act, f"{since}: {told}", "laying is over within 24 to 48 hours", (begun.event,))


def _over(course: Course, window: Window, late_days: float, on: date, what: str) -> Late | None:
    if on <= window.latest:
        return None
    since = f"was to {what} by {window.latest}"
    if not window.sure:
        return _not_sure(course, window, since)
    act = on > window.latest + timedelta(days=round(late_days))
    told = NOT_WAITING if act else "look at her daily; straining or weakness is for a vet at once"
    return Late(act, f"{since}: {told}", window.rule, window.events)


def _not_sure(course: Course, window: Window, since: str) -> Late | None:
    """After an ovulation that nothing followed; a mating alone says nothing."""
    if course.newest(Sign.OVULATION) is None:
        return None
    told = f"{since} if the ovulation was one: a vet can tell whether she carries eggs"
    return Late(False, told, window.rule, window.events)


def _long_gravid(course: Course, on: date, days: int) -> Late | None:
    gravid = course.first(Sign.CONFIRMED)
    if gravid is None or (on - gravid.day).days <= days:
        return None
    told = f"gravid since {gravid.day}, and no window is known for her species: a vet can tell"
    return Late(False, told, f"gravid for more than {days} days", (gravid.event,))
