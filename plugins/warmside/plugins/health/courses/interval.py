"""How often a dose is given, as a prescription says it."""

from __future__ import annotations

import re

from warmside.api import BadInput, counted, every_days, quoted

DAY_HOURS = 24
LEAST_HOURS = 2
"""An order with more than 12 doses a day is a slip: that is given at a clinic (common practice, no
source)."""
MOST_HOURS = 366 * DAY_HOURS
_HOURS_OF = {"h": 1, "hour": 1, "d": DAY_HOURS, "day": DAY_HOURS, "w": 168, "week": 168}
_EACH = re.compile(r"(?:every )?(\d+|other)? ?(hours?|h|days?|d|weeks?|w)")
_A_DAY = re.compile(r"(?:(\d+) ?(?:times|x|×)|(once|twice)) (?:a|per|each) (day|week)")
_HOW = "write it as 12 hours, 3 days, 1 week, twice a day or once"
_NAMED = {"daily": DAY_HOURS, "once": 0, "weekly": 168}


def hours_of(text: str) -> int:
    """The hours between two doses, 0 for a single dose; BadInput where it is none that can be."""
    hours = _hours(" ".join(text.casefold().split()), text)
    if hours and not LEAST_HOURS <= hours <= MOST_HOURS:
        far = "too often" if hours < LEAST_HOURS else "too rare"
        raise BadInput(f"every {quoted(text)} is {far} for an order at home; look at it again")
    return hours


def _hours(words: str, text: str) -> int:
    if words in _NAMED:
        return _NAMED[words]
    if found := _A_DAY.fullmatch(words):
        times = int(found[1]) if found[1] else {"once": 1, "twice": 2}[found[2]]
        return _shared(times, _HOURS_OF[found[3]], text)
    found = _EACH.fullmatch(words)
    if found is None:
        raise BadInput(f"every {quoted(text)} cannot be read; {_HOW}")
    number = {None: 1, "other": 2}.get(found[1]) or int(found[1] or 1)
    if number == 0 or found[1] == "0":
        raise BadInput(f"every {quoted(text)}: there must be time between two doses; {_HOW}")
    unit = found[2]
    return number * _HOURS_OF[unit if unit in _HOURS_OF else unit.removesuffix("s")]


def _shared(times: int, hours: int, text: str) -> int:
    if not times or hours % times:
        raise BadInput(f"every {quoted(text)} gives no whole number of hours; {_HOW}")
    return hours // times


def interval_words(hours: int) -> str:
    """`every 12 hours`, `every 3 days`, `once`."""
    if not hours:
        return "once"
    if hours % DAY_HOURS:
        return f"every {counted(hours, 'hour')}"
    return every_days(hours // DAY_HOURS)
