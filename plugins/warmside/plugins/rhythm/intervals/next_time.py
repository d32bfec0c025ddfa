"""When something is due again, from the interval and the last time it was done."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from msgspec import Struct

from warmside.api import About

ALL = About()  # nobody in particular


CLEANED = "cleaned"
SPOT, FULL = "spot", "full"
FULL_FROM_DAYS = 14
"""A clean every so many days or more is a full one where no extent is named (our rule)."""


def usual_extent(kind: str, days: int) -> str:
    """The extent of a rhythm that names none: none but for cleaning."""
    if kind != CLEANED:
        return ""
    return FULL if days >= FULL_FROM_DAYS else SPOT


class Rhythm(Struct, frozen=True):
    """Every `days` an event of `kind`, for one subject, or for ALL; `named` is its extent."""

    kind: str
    days: int
    about: About = ALL
    named: str = ""

    @property
    def extent(self) -> str:
        """What is to be done: a spot clean or a full one; empty for all but cleaning."""
        return self.named or usual_extent(self.kind, self.days)


class Done(Struct, frozen=True):
    """A subject that is in care `since` a day, and when it was last done, by which event.

    `fresh` means as good as done on the first day: an enclosure is set up clean, with fresh water.
    `full` is the day and event of the last full clean, where that is another thing.
    """

    about: About
    since: date
    last: date | None = None
    event: int | None = None
    fresh: bool = False
    full: tuple[date | None, int | None] = (None, None)

    def by(self, rhythm: Rhythm) -> Done:
        """The same with what counts for a rhythm as the last time: only a full clean is a full
        one, while each is a spot clean too."""
        if rhythm.extent != FULL:
            return self
        return Done(self.about, self.since, *self.full, fresh=self.fresh)


def due_day(days: int, done: Done) -> date:
    """The day on which it is due: `days` after the last time, or at once where it never was."""
    last = done.since if done.last is None and done.fresh else done.last
    return done.since if last is None else last + timedelta(days=days)


def applying(rhythms: Iterable[Rhythm], kind: str, about: About) -> tuple[Rhythm, ...]:
    """The rhythms of a kind that apply to a subject, one an extent: its own before those for all.

    An own one that names no extent stands alone.
    """
    of_kind = [r for r in rhythms if r.kind == kind]
    own = {r.extent: r for r in of_kind if r.about == about}
    alone = about == ALL or any(not r.named for r in own.values())
    general = {} if alone else {r.extent: r for r in of_kind if r.about == ALL}
    return tuple((general | own).values())


def due(
    rhythms: Iterable[Rhythm], kind: str, subjects: Iterable[Done], on: date
) -> Iterator[tuple[Rhythm, Done, date]]:
    """What is due up to a day: the rhythm, whom it is about, and since when."""
    known = tuple(rhythms)
    for done in subjects:
        for found in applying(known, kind, done.about):
            counted = done.by(found)
            if (day := due_day(found.days, counted)) <= on:
                yield found, counted, day
