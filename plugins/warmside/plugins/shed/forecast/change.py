"""A change of rhythm: intervals that all at once are much shorter or longer than before.

Judged on the exact intervals against the prediction from those before: two running outside its
90 % range on the same side are a new rhythm, and only they tell the next; the last one alone
outside its 98 % range may be one, and widens the range.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec import Struct

from warmside.plugins.shed.forecast.intervals import Interval
from warmside.plugins.shed.forecast.predictive import Belief, Predictive, Summary, updated

NEEDS = 4  # intervals before the change; common practice, no source
LOOKS_BACK = 8
SURE, PERHAPS = 0.05, 0.01  # chance on one side; common practice, no source
_LONGEST_AGO = 6  # an older change is what is usual by now


class Change(Struct, frozen=True):
    """The usual days before and since, by the middle interval, and what is ahead of it.

    `since` holds the intervals of the new rhythm; `sure` is False where one alone speaks for it.
    """

    before_days: float
    since_days: float
    since: tuple[Interval, ...]
    sure: bool
    ahead: Predictive

    @property
    def words(self) -> str:
        """The change in a few words."""
        said = "the rhythm changed" if self.sure else "the rhythm may have changed"
        return f"{said}, from about {self.before_days:.0f} to about {self.since_days:.0f} days"


def change_of(intervals: Sequence[Interval], belief: Belief) -> Change | None:
    """The newest change of rhythm, or None."""
    exact = [i for i in intervals if i.exact]
    logs = [math.log(i.low_days) for i in exact]
    first = max(NEEDS, len(logs) - _LONGEST_AGO)
    for place in range(len(logs) - 2, first - 1, -1):
        sides = {_side(logs, place, k, belief, SURE) for k in (place, place + 1)}
        if sides in ({1}, {-1}):
            return _changed(exact, logs, place, belief)
    if len(logs) > NEEDS and _side(logs, len(logs) - 1, len(logs) - 1, belief, PERHAPS):
        return _perhaps(exact, logs, belief)
    return None


def _before(logs: Sequence[float], place: int, belief: Belief) -> Belief:
    return updated(belief, _summary(logs[max(place - LOOKS_BACK, 0) : place]))


def _side(logs: Sequence[float], place: int, one: int, belief: Belief, chance: float) -> int:
    """1 where an interval is too long for those before a place, -1 for too short, else 0."""
    ahead = _before(logs, place, belief).predictive()
    longer = ahead.log_chance_longer(math.exp(logs[one]))
    if longer < math.log(chance):
        return 1
    return -1 if longer > math.log1p(-chance) else 0


def _changed(
    exact: Sequence[Interval], logs: Sequence[float], place: int, belief: Belief
) -> Change:
    """The new intervals tell the level, all of them how much intervals differ."""
    old = _before(logs, place, belief)
    fresh = Belief(belief.mean, belief.weight, old.shape, old.rate)
    ahead = updated(fresh, _summary(logs[place:])).predictive()
    return Change(_middle(logs[:place]), _middle(logs[place:]), tuple(exact[place:]), True, ahead)


def _perhaps(exact: Sequence[Interval], logs: Sequence[float], belief: Belief) -> Change:
    """Between the old rhythm and the last interval, as wide as both."""
    old = _before(logs, len(logs) - 1, belief).predictive()
    apart = (logs[-1] - old.location) / 2
    ahead = Predictive(old.location + apart, math.hypot(old.scale, abs(apart)), old.df)
    return Change(_middle(logs[:-1]), math.exp(logs[-1]), tuple(exact[-1:]), False, ahead)


def _summary(logs: Sequence[float]) -> Summary:
    mean = sum(logs) / len(logs)
    return Summary(len(logs), mean, sum((y - mean) ** 2 for y in logs))


def _middle(logs: Sequence[float]) -> float:
    ordered = sorted(logs[-LOOKS_BACK:])
    return math.exp(ordered[len(ordered) // 2])
