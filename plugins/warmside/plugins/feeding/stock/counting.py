"""What is left of each lot, worked out from what came, what was eaten and what was thrown away.

Nothing is counted down in the file, so a meal that is corrected or undone is back in stock.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, timedelta

from msgspec import Struct
from msgspec.structs import replace

from warmside.plugins.feeding.stock.lots import Lot, take

# So long after a day its meals may still be corrected; what was left then is settled.
SETTLED_AFTER_DAYS = 30


class Came(Struct, frozen=True):
    """A lot as it came: meals take from it from the day `since`."""

    lot: Lot
    since: date


class Eaten(Struct, frozen=True):
    """So many items of a prey class (its code) used on a day."""

    day: date
    prey: str
    count: int


class Thrown(Struct, frozen=True):
    """So many items of a lot thrown away on a day."""

    day: date
    lot: int
    count: int


class Settled(Struct, frozen=True):
    """What was left at the end of a day, by lot, for the lots up to `newest`."""

    day: date
    newest: int
    left: Mapping[int, int]


def left_of(
    came: Sequence[Came],
    eaten: Iterable[Eaten],
    thrown: Iterable[Thrown],
    settled: Settled | None = None,
) -> tuple[Lot, ...]:
    """The lots with what is left of each, in the order of `came`.

    Meals take from the oldest lot that was there on their day; of one day the lots come first,
    then what was thrown away, then the meals. Meals without stock take nothing.
    """
    start = settled.day if settled else date.min
    lots = {c.lot.id: replace(c.lot, count=_at_start(c.lot, settled)) for c in came}
    since = {c.lot.id: c.since for c in came}
    for change in sorted(_after(start, [*thrown, *eaten]), key=_order):
        if isinstance(change, Thrown):
            _throw(lots, since, change)
        else:
            _eat(lots, since, change)
    return tuple(lots[c.lot.id] for c in came)


def settled_at(
    came: Sequence[Came],
    eaten: Iterable[Eaten],
    thrown: Iterable[Thrown],
    day: date,
    before: Settled | None = None,
) -> Settled:
    """What was left at the end of a day, from which later counts can go on."""
    old = [c for c in came if c.since <= day]
    lots = left_of(
        old, [e for e in eaten if e.day <= day], [t for t in thrown if t.day <= day], before
    )
    newest = max((c.lot.id for c in came), default=0)
    later = {c.lot.id: c.lot.count for c in came if c.since > day}
    return Settled(day, newest, {lot.id: lot.count for lot in lots if lot.count} | later)


def settling_day(today: date, before: Settled | None) -> date | None:
    """The day up to which the stock may be settled, or None while it is hardly later."""
    day = today - timedelta(days=SETTLED_AFTER_DAYS)
    if before and (day - before.day).days < SETTLED_AFTER_DAYS:
        return None
    return day


def _at_start(lot: Lot, settled: Settled | None) -> int:
    if settled is None or lot.id > settled.newest:
        return lot.count
    return settled.left.get(lot.id, 0)


def _after(start: date, changes: Iterable[Thrown | Eaten]) -> Iterable[Thrown | Eaten]:
    return (c for c in changes if c.day > start)


def _order(change: Thrown | Eaten) -> tuple[date, bool]:
    return change.day, isinstance(change, Eaten)


def _throw(lots: dict[int, Lot], since: Mapping[int, date], change: Thrown) -> None:
    if change.lot in lots and since[change.lot] <= change.day:
        lot = lots[change.lot]
        lots[lot.id] = replace(lot, count=max(0, lot.count - change.count))


def _eat(lots: dict[int, Lot], since: Mapping[int, date], change: Eaten) -> None:
    mine = [x for x in lots.values() if x.count and x.prey == change.prey]
    there = [x for x in mine if since[x.id] <= change.day]
    for id, count in take(there, change.prey, change.count).parts:
        lots[id] = replace(lots[id], count=lots[id].count - count)
