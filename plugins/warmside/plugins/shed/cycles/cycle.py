"""Shed cycles from what was seen: dull, opaque, clear, shed; and what in the record is doubtful."""

from __future__ import annotations

from collections.abc import Container, Iterable
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from warmside.plugins.shed.cycles.shipped import window


class Stage(StrEnum):
    """How far an animal is on the way to a shed, in this order."""

    DULL = "dull"
    OPAQUE = "opaque"
    CLEAR = "clear"
    SHED = "shed"

    @property
    def rank(self) -> int:
        """Its place in the order, from 0."""
        return _RANKS[self]


_RANKS = {stage: rank for rank, stage in enumerate(Stage)}


class DoubtCode(StrEnum):
    """What can be doubtful in the record of sheds."""

    ORDER = "order"
    TWICE = "twice"
    UNRECORDED = "unrecorded"


@dataclass(frozen=True, slots=True)
class Seen:
    """A stage seen on a local day; `event` is the id of its record."""

    day: date
    stage: Stage
    event: int = 0

    def __str__(self) -> str:
        return f"{self.stage} on {self.day}"


@dataclass(frozen=True, slots=True)
class Doubt:
    """Something in the record that cannot be right as it stands, with the sights concerned."""

    code: DoubtCode
    words: str
    seen: tuple[Seen, ...]


@dataclass(frozen=True, slots=True)
class Cycle:
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


@dataclass(frozen=True, slots=True)
class History:
    """All cycles of one animal, oldest first, and the doubts found on the way."""

    cycles: tuple[Cycle, ...] = ()
    doubts: tuple[Doubt, ...] = ()


def read(seen: Iterable[Seen], today: date, eats_slough: bool = False) -> History:
    """The cycles of one animal up to today; sights may come in any order.

    With `eats_slough`, a cycle without a shed on record is no doubt. Sights after today are left
    out.
    """
    runs: list[list[Seen]] = []
    doubts: list[Doubt] = []
    for sight in sorted((s for s in seen if s.day <= today), key=_in_order):
        _add(sight, runs, doubts)
    cycles = tuple(_cycle(run, today) for run in runs)
    if not eats_slough:
        doubts += [_unrecorded(c) for c in cycles if c.led_to_shed and c.shed is None]
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


def _add(sight: Seen, runs: list[list[Seen]], doubts: list[Doubt]) -> None:
    """Put a sight into the last run, begin a new one with it, or doubt it."""
    if not runs or _starts_anew(runs[-1][-1], sight):
        runs.append([sight])
        return
    last = runs[-1][-1]
    if sight.stage.rank > last.stage.rank:
        runs[-1].append(sight)
    elif sight.stage is last.stage is Stage.SHED:
        doubts.append(_twice(last, sight))
    elif sight.stage is not last.stage:
        doubts.append(_disorder(last, sight))


def _starts_anew(last: Seen, sight: Seen) -> bool:
    limit = "one shed" if last.stage is Stage.SHED else "one cycle"
    return (sight.day - last.day).days > window(limit).high_days


def _cycle(run: list[Seen], today: date) -> Cycle:
    last = run[-1]
    stale = (today - last.day).days > window("one cycle").high_days
    return Cycle(tuple(run), over=last.stage is Stage.SHED or stale)


def _twice(first: Seen, second: Seen) -> Doubt:
    return Doubt(
        DoubtCode.TWICE,
        f"{second} is dated twice: {first} is on record already; "
        "skin that comes off within days belongs to one shed, so correct that record instead",
        (first, second),
    )


def _disorder(first: Seen, second: Seen) -> Doubt:
    return Doubt(
        DoubtCode.ORDER,
        f"{second} is out of order after {first}; correct the day or the stage of one of them",
        (first, second),
    )


def _unrecorded(cycle: Cycle) -> Doubt:
    return Doubt(
        DoubtCode.UNRECORDED,
        f"{cycle.last}, and no shed on record after it; if it has shed, record the shed",
        (cycle.last,),
    )
