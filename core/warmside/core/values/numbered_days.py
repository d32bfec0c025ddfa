"""Days of three numbers, `4/1/2021`: which is the month, the collection says; it is not guessed."""

from __future__ import annotations

import re
from datetime import date

from warmside.core.values.calendar_checks import calendar_day
from warmside.core.values.errors import BadInput
from warmside.core.values.hints import near_miss, quoted

DAY_FIRST, MONTH_FIRST = "day first", "month first"
ORDERS = (DAY_FIRST, MONTH_FIRST)
_NUMBERED = re.compile(r"([0-9]{1,2})([/.-])([0-9]{1,2})\2([0-9]{4}|[0-9]{2})")
_AHEAD = 20  # years that a year of two digits may lie ahead, as no loan does; common practice


class OrderUnknown(BadInput):
    """A day that can be read in two ways, in a collection that has not said which it means."""

    def __init__(self, text: str) -> None:
        self.text = text
        super().__init__(
            f"{quoted(text)} can be read in two ways; write it as 2021-04-01, or say once for all "
            "which comes first: warmside file change --dates 'day first' or 'month first'"
        )


def numbered_day(text: str, order: str, today: date) -> date | None:
    """The day that three numbers mean, with the year last; None where the text is no such day.

    `order` is one of ORDERS, or empty where none was said: then OrderUnknown is raised, unless only
    one order gives a day. A year of two digits is of this century, or of the last.
    """
    found = _NUMBERED.fullmatch(text.strip())
    if found is None:
        return None
    first, second, year = int(found[1]), int(found[3]), _whole_year(found[4], today)
    if not order:
        order = _only_order(first, second, text)
    day, month = (first, second) if order == DAY_FIRST else (second, first)
    try:
        return calendar_day(year, month, day, text)
    except BadInput as wrong:
        raise BadInput(f"{wrong}; days are typed {order} here") from None


def parse_order(text: str) -> str:
    """The order as it is stored, from what was typed, such as `Month first` or `month`."""
    typed = " ".join(text.replace("-", " ").casefold().split())
    for order in ORDERS:
        if typed in (order, order.split()[0], order[0]):
            return order
    raise BadInput(
        f"write day first or month first, not {quoted(text)!r}{near_miss(typed, ORDERS)}"
    )


def _whole_year(text: str, today: date) -> int:
    if len(text) == 4:
        return int(text)
    year = today.year // 100 * 100 + int(text)
    return year - 100 if year > today.year + _AHEAD else year


def _only_order(first: int, second: int, text: str) -> str:
    if first == second or second > 12:
        return MONTH_FIRST
    if first > 12:
        return DAY_FIRST
    raise OrderUnknown(text)
