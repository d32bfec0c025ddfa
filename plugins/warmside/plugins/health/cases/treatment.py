"""Whether an animal is in treatment, and how it is to be fed meanwhile: as the vet said."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from msgspec import Struct

from warmside.plugins.health.cases.course_of_case import Case
from warmside.plugins.health.cases.food_words import AS_USUAL, NO_FOOD
from warmside.plugins.health.courses.order import Course


class Treatment(Struct, frozen=True):
    """An open case, running courses or both; `last` is None where no end is known."""

    since: date
    last: date | None
    words: str
    by: str
    events: tuple[int, ...]
    courses: bool


class FoodWord(Struct, frozen=True):
    """What a vet said of an animal's food: one of three words, and the vet's own."""

    event: int
    day: date
    says: str
    words: str = ""
    by: str = ""
    until: date | None = None


class Told(Struct, frozen=True):
    """That an animal is not fed by its plan, in words; `asked` where the vet's are missing."""

    words: str
    since: date
    until: date | None
    events: tuple[int, ...]
    asked: bool = False


def treatment(
    case: Case | None, courses: Sequence[Course], ordered: Sequence[date], on: date
) -> Treatment | None:
    """The treatment on a day: from the first sign or order on; None without an open case or course.

    `ordered` are the days on which the courses were written down, in their order.
    """
    running = [(c, day) for c, day in zip(courses, ordered, strict=True) if c.runs(on)]
    if case is None and not running:
        return None
    begins = [min(c.order.start, day) for c, day in running]
    words = [c.order.words for c, _ in running]
    events = tuple(c.order.event for c, _ in running)
    if case is not None:
        begins.append(case.begun)
        words.insert(0, f"open case: {case.entries[0].what}")
        events += tuple(e.event for e in case.entries)
    ends = [c.last_day for c, _ in running]
    known = [end for end in ends if end is not None]
    last = max(known) if case is None and len(known) == len(ends) else None
    by = running[-1][0].order.by if running else ""
    return Treatment(min(begins), last, "; ".join(words), by, events, bool(running))


def fed_as_told(found: Treatment | None, said: Sequence[FoodWord], on: date) -> Told | None:
    """How an animal is fed that is not fed by its plan; None where the plan stands.

    The newest word of this treatment counts. A course without a word is asked about, and no meal is
    planned until the vet's word is on record; a case without a course leaves the plan alone.
    """
    if found is None:
        return None
    mine = [w for w in said if found.since <= w.day <= on]
    newest = max(mine, key=lambda w: (w.day, w.event), default=None)
    if newest is None:
        return _missing(found) if found.courses else None
    if newest.says == AS_USUAL or (newest.until is not None and on > newest.until):
        return None
    return Told(_said(newest), newest.day, newest.until, (newest.event,))


def _missing(found: Treatment) -> Told:
    words = f"in treatment since {found.since}, and what the vet said of its food is not on record"
    return Told(words, found.since, None, found.events, asked=True)


def _said(word: FoodWord) -> str:
    """`no food until 2026-03-09, as Dr. Reed said: nothing before the check`."""
    what = NO_FOOD if word.says == NO_FOOD else "fed by the vet's word, not by the plan"
    until = f" until {word.until}" if word.until else ""
    said = f": {word.words}" if word.words else ""
    return f"{what}{until}, as {word.by or 'the vet'} said on {word.day}{said}"
