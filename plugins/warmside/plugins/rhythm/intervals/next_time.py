"""When something is due again, from the interval and the last time it was done."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from msgspec import Struct

from warmside.api import About

ALL = About()  # nobody in particular


FULL_FROM_DAYS = 14
"""A clean every so many days or more is a full one, which no spot clean puts off (our rule)."""


class Rhythm(Struct, frozen=True):
    """Every `days` an event of `kind`, for one subject, or for ALL."""

    kind: str
    days: int
    about: About = ALL

    @property
    def wants_full(self) -> bool:
        """Whether only a full clean counts."""
        return self.kind == "cleaned" and self.days >= FULL_FROM_DAYS


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
        """The same with what counts for a rhythm as the last time."""
        if not rhythm.wants_full:
            return self
        return Done(self.about, self.since, *self.full, fresh=self.fresh)


def due_day(days: int, done: Done) -> date:
    """The day on which it is due: `days` after the last time, or at once where it never was."""
    last = done.since if done.last is None and done.fresh else done.last
    return done.since if last is None else last + timedelta(days=days)


def applying(rhythms: Iterable[Rhythm], kind: str, about: About) -> Rhythm | None:
    """The rhythm of a kind that applies to a subject: its own before the one for all."""
    mine = {r.about: r for r in rhythms if r.kind == kind}
    return mine.get(about, mine.get(ALL))


def due(
    rhythms: Iterable[Rhythm], kind: str, subjects: Iterable[Done], on: date
) -> Iterator[tuple[Rhythm, Done, date]]:
    """What is due up to a day: the rhythm, whom it is about, and since when."""
    known = tuple(rhythms)
    for done in subjects:
        found = applying(known, kind, done.about)
        if found is None:
            continue
        counted = done.by(found)
        if (day := due_day(found.days, counted)) <= on:
            yield found, counted, day
