"""Where an animal stands today on its way to a shed, and when the next stage is to be expected."""

from __future__ import annotations

from datetime import date, timedelta

from msgspec import Struct

from warmside.api import Source
from warmside.plugins.shed.cycles.cycle import Cycle, History, Stage
from warmside.plugins.shed.cycles.shipped import window


class Expected(Struct, frozen=True):
    """A stage and the days between which it is usual, both included."""

    stage: Stage
    low: date
    high: date
    source: Source

    def late(self, today: date) -> bool:
        """Whether the last usual day has passed."""
        return today > self.high


class Now(Struct, frozen=True):
    """The current stage since a day, the next stage, and the shed at the end.

    Between two sheds there is no stage; `expected` is then empty and only the forecast speaks.
    """

    stage: Stage | None = None
    since: date | None = None
    next_stage: Expected | None = None
    shed: Expected | None = None
    events: tuple[int, ...] = ()


def where(history: History) -> Now:
    """The current stage of an animal whose history was read up to today."""
    if not history.cycles or history.cycles[-1].over:
        return Now()
    return _within(history.cycles[-1])


def _within(cycle: Cycle) -> Now:
    stage, since = cycle.last.stage, cycle.last.day
    following = tuple(Stage)[stage.rank + 1]
    return Now(
        stage,
        since,
        _expected(stage, since, following),
        _expected(stage, since, Stage.SHED),
        cycle.events,
    )


def _expected(stage: Stage, since: date, following: Stage) -> Expected:
    days = window(f"{stage} to {following}")
    low, high = (since + timedelta(days=d) for d in (days.low_days, days.high_days))
    return Expected(following, low, high, days.source)
