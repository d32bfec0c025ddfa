"""Days between one shed and the next: known exactly, or only between two bounds."""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterable, Sequence
from datetime import date, timedelta
from typing import NamedTuple

from warmside.api import BadInput
from warmside.plugins.shed.cycles.cycle import History, Seen, Stage
from warmside.plugins.shed.cycles.shipped import window

Days = tuple[date, date]
LONGEST_DAYS = 3650
LONG_FROM, LONG_NEEDS = 1.8, 4  # times the usual, of so many; common practice, no source
NEIGHBOURS = 3  # intervals on each side that say what is usual; common practice, no source


class Interval(NamedTuple):
    """An interval of `low_days` to `high_days`; both are equal where it is known exactly.

    `started` is the day of the shed before it, where known. An endless `high_days` says only that
    the interval is longer than `low_days`.
    """

    low_days: float
    high_days: float
    started: date | None = None
    events: tuple[int, ...] = ()

    @property
    def exact(self) -> bool:
        """Whether both sheds were dated."""
        return self.low_days == self.high_days


def exactly(days: Iterable[float]) -> tuple[Interval, ...]:
    """Intervals of known length; raises BadInput for one that is not above 0 days."""
    return tuple(between(d, d) for d in days)


def between(low_days: float, high_days: float) -> Interval:
    """One interval between two bounds; raises BadInput where they cannot be."""
    if not 0 < low_days <= LONGEST_DAYS:
        raise BadInput(
            f"an interval of {low_days:g} days between two sheds cannot be; "
            f"give more than 0 and at most {LONGEST_DAYS} days"
        )
    if not low_days <= high_days:
        raise BadInput(f"an interval of {low_days:g} to {high_days:g} days runs backwards")
    return Interval(float(low_days), float(high_days))


def of_history(history: History) -> tuple[Interval, ...]:
    """The intervals of one animal, oldest first.

    A shed that was not recorded lies between the last stage seen and the end of that stage's usual
    window, so the intervals on both sides of it have bounds instead of a length.
    """
    spans, dull, shed = _spans_to_shed(), Stage.DULL, Stage.SHED
    found: list[Interval] = []
    started: date | None = None
    before = first_low = first_high = 0
    for seen, over in history.cycles:  # one plain loop over ordinals: a round walks some 20,000
        sight, stage, event = seen[-1]
        if not over or stage is dull:
            continue
        usual_low, usual_high = spans[stage.rank]
        day = sight.toordinal()
        low, high = day + usual_low, day + usual_high
        if first_high:
            least, most = low - first_high, high - first_low
            bounds = float(least) if least > 1 else 1.0, float(most) if most > 1 else 1.0
            found.append(Interval(*bounds, started, (before, event)))
        started, before = sight if stage is shed else None, event
        first_low, first_high = low, high
    return tuple(found)


def last_shed(history: History) -> tuple[date, date] | None:
    """The first and last day on which the last shed can have been; equal where it was dated."""
    last = next((c for c in reversed(history.cycles) if c.led_to_shed), None)
    return _shed_days(last.last) if last else None


def perhaps_missed(intervals: Sequence[Interval]) -> tuple[Interval, ...]:
    """Exact intervals near twice those around them, or longer: a shed between may be missing.

    Compared with the neighbours and not with the whole life, since the young shed more often.
    """
    exact = [i for i in intervals if i.exact]
    if len(exact) < LONG_NEEDS:
        return ()
    least = LONG_FROM * min(i.low_days for i in exact)  # what is usual nearby is no less
    return tuple(
        i
        for n, i in enumerate(exact)
        if i.low_days >= least and i.low_days >= LONG_FROM * _usual_near(exact, n)
    )


def _usual_near(exact: Sequence[Interval], place: int) -> float:
    """The upper median of the neighbouring lengths, in days; the interval itself left out."""
    near = (*exact[max(0, place - NEIGHBOURS) : place], *exact[place + 1 : place + 1 + NEIGHBOURS])
    lengths = sorted(i.low_days for i in near)
    return lengths[len(lengths) // 2]


def loosened(
    intervals: Sequence[Interval], long_by_season: Callable[[Interval], bool] = lambda _: False
) -> tuple[Interval, ...]:
    """The intervals, with those that may hide a missed shed read as `at most so long`.

    Those that a season without sheds makes long are left as they are.
    """
    doubtful = [i for i in perhaps_missed(intervals) if not long_by_season(i)]
    return tuple(i._replace(low_days=1.0) if i in doubtful else i for i in intervals)


def _shed_days(last: Seen) -> Days:
    """The first and last day of the shed that followed a cycle's last sight, or was that."""
    low_days, high_days = _spans_to_shed()[last.stage.rank]
    return last.day + timedelta(days=low_days), last.day + timedelta(days=high_days)


@functools.cache
def _spans_to_shed() -> tuple[tuple[int, int], ...]:
    """The fewest and the most usual days from each stage to the shed, by the stage's rank."""
    before = (window(f"{stage} to shed") for stage in Stage if stage is not Stage.SHED)
    return (*((w.low_days, w.high_days) for w in before), (0, 0))
