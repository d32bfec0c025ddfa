"""When something is due again, from the interval and the last time it was done."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from msgspec import Struct

from warmside.api import About

ALL = About()  # nobody in particular


class Rhythm(Struct, frozen=True):
    """Every `days` an event of `kind`, for one subject, or for ALL."""

    kind: str
    days: int
    about: About = ALL


class Done(Struct, frozen=True):
    """A subject that is in care `since` a day, and when it was last done, by which event.

    `fresh` means as good as done on the first day: an enclosure is set up clean, with fresh water.
    """

    about: About
    since: date
    last: date | None = None
    event: int | None = None
    fresh: bool = False


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
        if found is not None and (day := due_day(found.days, done)) <= on:
            yield found, done, day
