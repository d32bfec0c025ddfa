"""Shed cycles from what was seen: dull, opaque, clear, shed; and what in the record is doubtful."""

from __future__ import annotations

from collections.abc import Container, Iterable
from datetime import date, timedelta
from enum import StrEnum
from typing import NamedTuple

from msgspec import Struct

from warmside.plugins.shed.cycles.shipped import window


class Stage(StrEnum):
    """How far an animal is on the way to a shed, in this order."""

    DULL = "dull"
    OPAQUE = "opaque"
    CLEAR = "clear"
    SHED = "shed"

    rank: int
    """Its place in the order, from 0; an attribute, since a round asks some 10,000 times."""

    def __init__(self, _: str) -> None:
        self.rank = len(type(self).__members__)


class DoubtCode(StrEnum):
    """What can be doubtful in the record of sheds."""

    ORDER = "order"
    TWICE = "twice"
    UNRECORDED = "unrecorded"


class Seen(NamedTuple):
    """A stage seen on a local day; `event` is the id of its record."""

    day: date
    stage: Stage
    event: int = 0

    def __str__(self) -> str:
        return f"{self.stage} on {self.day}"


class Doubt(NamedTuple):
    """Something in the record that cannot be right as it stands, with the sights concerned."""

    code: DoubtCode
    seen: tuple[Seen, ...]

    @property
    def words(self) -> str:
        """What is doubtful, and what to do."""
        first, last = self.seen[0], self.seen[-1]
        if self.code is DoubtCode.TWICE:
            return (
                f"{last} is dated twice: {first} is on record already; skin that comes off within "
                "days belongs to one shed, so correct that record instead"
            )
        if self.code is DoubtCode.ORDER:
            return (
                f"{last} is out of order after {first}; correct the day or the stage of one of them"
            )
        return f"{last}, and no shed on record after it; if it has shed, record the shed"


class Cycle(NamedTuple):
    """One cycle: the first sight of each stage in order, and whether it is over.

    A cycle is over once the shed is on record, or when too long has passed since its last sight.
    """

    seen: tuple[Seen, ...]
    over: bool

    @property
    def last(self) -> Seen:
        """The stage reached."""
        return self.seen[-1]

    @property
    def shed(self) -> date | None:
        """The day of the shed, if it is on record."""
        return self.last.day if self.last.stage is Stage.SHED else None

    @property
    def led_to_shed(self) -> bool:
        """Whether a shed followed, on record or not; dull skin alone says nothing."""
        return self.over and self.last.stage is not Stage.DULL

    @property
    def events(self) -> tuple[int, ...]:
        """The ids of the records used."""
        return tuple(s.event for s in self.seen)


class History(Struct, frozen=True):
    """All cycles of one animal, oldest first, and the doubts found on the way."""

    cycles: tuple[Cycle, ...] = ()
    doubts: tuple[Doubt, ...] = ()


def read(seen: Iterable[Seen], today: date, eats_slough: bool = False) -> History:
    """The cycles of one animal up to today; sights may come in any order.

    With `eats_slough`, a cycle without a shed on record is no doubt. Sights after today are left
    out.
    """
    runs, doubts = _runs(sorted([s for s in seen if s.day <= today], key=_in_order))
    stale = today - timedelta(days=window("one cycle").high_days)
    shed = Stage.SHED
    cycles = tuple([Cycle(tuple(r), r[-1].stage is shed or r[-1].day < stale) for r in runs])
    if not eats_slough:
        said_enough = shed, Stage.DULL
        ended = [seen[-1] for seen, over in cycles if over]
        unseen = [last for last in ended if last.stage not in said_enough]
        doubts += [Doubt(DoubtCode.UNRECORDED, (last,)) for last in unseen]
    return History(cycles, tuple(doubts))


def doubts_about(seen: Iterable[Seen], new: Container[int]) -> tuple[Doubt, ...]:
    """The doubts that new sights bring, told by the ids of their events; all are in `seen`."""
    everything = tuple(seen)
    if not everything:
        return ()
    history = read(everything, max(s.day for s in everything), eats_slough=True)
    return tuple(d for d in history.doubts if any(s.event in new for s in d.seen))


def _in_order(sight: Seen) -> tuple[date, int, int]:
    return sight.day, sight.stage.rank, sight.event


def _runs(ordered: Iterable[Seen]) -> tuple[list[list[Seen]], list[Doubt]]:
    """The sights of each cycle; what fits none is doubted. A plain loop, since it is a hot one."""
    runs: list[list[Seen]] = []
    doubts: list[Doubt] = []
    shed, one_shed = Stage.SHED, window("one shed").high_days
    limit = one_cycle = window("one cycle").high_days
    last, last_day = None, 0
    for sight in ordered:
        stage, day = sight.stage, sight.day.toordinal()
        if last is None or day - last_day > limit:
            runs.append([sight])
        elif stage.rank > last.stage.rank:
            runs[-1].append(sight)
        else:
            if stage is last.stage is shed:
                doubts.append(Doubt(DoubtCode.TWICE, (last, sight)))
            elif stage is not last.stage:
                doubts.append(Doubt(DoubtCode.ORDER, (last, sight)))
            continue
        last, last_day = sight, day
        limit = one_shed if stage is shed else one_cycle
    return runs, doubts
