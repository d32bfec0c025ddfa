"""The yearly faecal check of an animal that lives here."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from msgspec import Struct

from warmside.plugins.health.samples.sample import Sample, is_of_faeces


class FaecalCheck(Struct, frozen=True):
    """When the next is due, counted from which day, and why from that one."""

    due: date
    since: date
    why: str
    events: tuple[int, ...] = ()


def faecal_check(
    samples: Sequence[Sample], came: date, entered: date, every: timedelta
) -> FaecalCheck:
    """The next check: a span after the last sample of its droppings.

    Where none is on record it counts from the day on which it came or was entered here, whichever
    is later: nobody knows what was done before, and a long list on the first day helps no animal.
    """
    last = max(
        (s for s in samples if is_of_faeces(s) and not s.is_result),
        key=lambda s: (s.day, s.event),
        default=None,
    )
    if last is not None:
        return FaecalCheck(last.day + every, last.day, f"the last was on {last.day}", (last.event,))
    since = max(came, entered)
    how = "it came" if came >= entered else "it was entered"
    return FaecalCheck(since + every, since, f"none is on record since {how} on {since}")
