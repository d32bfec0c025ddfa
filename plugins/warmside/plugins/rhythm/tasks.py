"""Tasks from the rhythms that are due."""

from __future__ import annotations

from datetime import date

from warmside.api import Basis, EventKind, Mark, Source, Task, days_ago_words, every_days
from warmside.plugins.rhythm.intervals.next_time import Done, Rhythm

OWN = Source("the rhythm that the keeper set", Mark.KEEPERS_OWN)


def task(kind: EventKind, rhythm: Rhythm, done: Done, due: date, on: date) -> Task:
    """The task that settles one rhythm for one subject."""
    words = kind.todo or kind.title
    used = () if done.event is None else (done.event,)
    return Task(
        f"{rhythm.extent} {words}".lstrip(),
        due,
        Basis(why(rhythm.days, done.last, on), OWN, used),
        done.about,
        settles=kind.name,
        data={"extent": rhythm.extent} if rhythm.extent else {},
        every_days=rhythm.days,
    )


def why(days: int, last: date | None, on: date) -> str:
    """The rule and the last time: `every 30 days, last 31 days ago`."""
    often = every_days(days)
    return f"{often}, last {days_ago_words(last, on)}" if last else f"{often}, none on record"
