"""Ages as far as the date of hatching is known."""

from __future__ import annotations

from warmside.api import PartialDate

MOST_UNSURE_DAYS = 31
"""A date of hatching known less well gives no centile (our rule): a month old or six are worlds."""


def hatched_day(hatched: PartialDate | None) -> float | None:
    """The day of hatching, the middle of a month; None where it is not known to the month."""
    if hatched is None:
        return None
    first, last = hatched.earliest.toordinal(), hatched.latest.toordinal()
    return (first + last) / 2 if last - first <= MOST_UNSURE_DAYS else None
