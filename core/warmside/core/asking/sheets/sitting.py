"""Which tasks of the coming days are a sitter's, and which can wait for the keeper."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from datetime import date, timedelta

from msgspec import Struct

from warmside.core.asking.rounds.round import Stop

KEEPERS_KINDS = frozenset({"weighed", "measured", "condition", "examined"})
"""What a keeper records himself, whoever asks for it (common practice, no source)."""


class Turn(Struct, frozen=True):
    """A task on one of the sitter's days."""

    day: date
    stop: Stop


class Sitting(Struct, frozen=True):
    """What a sitter is to do, by day, and what is left for the keeper."""

    turns: tuple[Turn, ...]
    waiting: tuple[Turn, ...]


def sitting(
    times: Iterable[Sequence[tuple[date, Stop]]],
    first: date,
    last: date,
    enclosures: Collection[int] | None = None,
) -> Sitting:
    """Of each task's days those from `first` to `last`, in these enclosures (None is all).

    What has been done by then is not asked for again: a task that is late on the first day and
    was due before it counts as done by the keeper, who is told of it. What may be done until after
    the last day waits for the keeper, who knows the animal.
    """
    turns: list[Turn] = []
    waiting: list[Turn] = []
    for all in times:
        for day, stop in all:
            if first <= day <= last and _is_meant(stop, enclosures) and not only_thaws(stop):
                (waiting if is_keepers(stop, day, last) else turns).append(Turn(day, stop))
    return Sitting(tuple(sorted(turns, key=_order)), tuple(sorted(waiting, key=_order)))


def is_keepers(stop: Stop, day: date, last: date) -> bool:
    """Whether a task waits for the keeper: it is his own, never late, in time later on, or a
    meal of which nobody can say what it is."""
    task = stop.task
    if task.keepers or task.settles in KEEPERS_KINDS or stop.last_day is None:
        return True
    if task.settles == "fed" and not task.data.get("item"):
        return True
    slack = max(timedelta(0), stop.last_day - max(day, stop.task.due))
    return slack > timedelta(0) and day + slack > last


def only_thaws(stop: Stop) -> bool:
    """Whether it merely sets prey out to thaw, of which a sitter's days have lines of their own."""
    return stop.task.data.get("form") == "thawed" and not stop.task.settles


def _is_meant(stop: Stop, enclosures: Collection[int] | None) -> bool:
    return enclosures is None or stop.enclosure_id in enclosures


def _order(turn: Turn) -> tuple[object, ...]:
    stop = turn.stop
    place = (stop.room, stop.enclosure_id or 0, stop.task.about.animal_id or 0)
    return (turn.day, stop.rank.rank, stop.rank.group, *place, stop.task.what)


def to_thaw(turns: Iterable[Turn], day: date) -> dict[str, int]:
    """How many of which frozen food is fed on a day; a task that names none is left out."""
    found: dict[str, int] = {}
    for turn in turns:
        data = turn.stop.task.data
        if turn.day == day and data.get("form") == "thawed" and data.get("item"):
            found[data["item"]] = found.get(data["item"], 0) + int(data.get("count") or 1)
    return found


def days_from(first: date, last: date) -> Iterator[date]:
    """Each day, both ends included."""
    for ahead in range((last - first).days + 1):
        yield first + timedelta(days=ahead)
