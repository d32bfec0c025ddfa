"""What an animal was offered and what came of it, counted."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from datetime import date

from msgspec import Struct

from warmside.core.record.entities import Event
from warmside.core.values.counts import counted

ATE = ("taken", "part taken")


class Meals(Struct, frozen=True):
    """The last meal that was eaten, refusals since, and the outcomes within the days looked at."""

    last: Event | None
    refused_since: int
    outcomes: dict[str, int]

    @property
    def words(self) -> str:
        """`9 offered: 7 taken, 2 refused`; says plainly where none was."""
        offered = sum(self.outcomes.values())
        if not offered:
            return "none is on record"
        each = ", ".join(f"{n} {outcome}" for outcome, n in self.outcomes.items())
        return f"{offered} offered: {each}"

    @property
    def since_words(self) -> str:
        """How many meals were refused since the last that was eaten."""
        return f"{counted(self.refused_since, 'meal')} refused since" if self.refused_since else ""


def meals(events: Sequence[Event], since: date) -> Meals:
    """The meals of one animal from its events of the kind `fed`, oldest first."""
    eaten = [n for n, event in enumerate(events) if event.data["outcome"] in ATE]
    last = eaten[-1] if eaten else -1
    later = Counter(event.data["outcome"] for event in events[last + 1 :])
    outcomes = Counter(event.data["outcome"] for event in events if event.day >= since)
    return Meals(events[last] if eaten else None, later["refused"], dict(outcomes.most_common()))
