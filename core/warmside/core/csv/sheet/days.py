"""Days as keepers write them in sheets; the order of day and month comes from the whole column."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date, time

from warmside.core.values.errors import BadInput
from warmside.core.values.hints import quoted
from warmside.core.values.numbered_days import DAY_FIRST, MONTH_FIRST, ORDERS

_MONTHS = {
    word: number
    for number, words in enumerate(
        (
            *("jan january januar", "feb february februar", "mar march märz maerz", "apr april"),
            *("may mai", "jun june juni", "jul july juli", "aug august", "sep sept september"),
            *("oct october okt oktober", "nov november", "dec december dez dezember"),
        ),
        1,
    )
    for word in words.split()
}
_WEEKDAY = re.compile(r"(?i)\b(mon|tues?|wed(?:nes)?|thur?s?|fri|satur|sat|sun)(?:day)?\b[.,]?\s*")
_NUMBERS = re.compile(r"(\d{1,4})\s*[./\-\s]\s*(\d{1,2})(?:\s*[./\-\s]\s*(\d{2,4})?)?")
_DAY_MONTH = re.compile(r"(\d{1,2})(?:st|nd|rd|th)?[.\s\-/]*([^\W\d]{3,9})[.,\s\-/]*'?(\d{2,4})?")
_MONTH_DAY = re.compile(r"([^\W\d]{3,9})[.\s\-]*(\d{1,2})(?:st|nd|rd|th)?(?:[,\s\-]+'?(\d{2,4}))?")
_CLOCK = re.compile(r"(?i)[\sT,]*\b(\d{1,2}):(\d{2})(?::\d{2})?\s*(am|pm)?$")
_MONTH_HEADING = re.compile(r"([^\W\d]{3,9})\.?[\s,\-/]*'?(\d{4}|\d{2})?")
_MONTH_NUMBERS = re.compile(r"(\d{4})[-/.](\d{1,2})|(\d{1,2})[-/.](\d{4})")


class DayReader:
    """Reads the days of one column in one order; `year` holds for days that have none."""

    def __init__(self, order: str, today: date, year: int | None = None) -> None:
        self._order = order
        self._today = today
        self.year = year

    def read(self, text: str) -> tuple[date, time | None]:
        """The day, and the time where the cell has one; BadInput says what cannot be read."""
        plain = _WEEKDAY.sub("", text.strip()).strip()
        clock, found = None, _CLOCK.search(plain)
        if found:
            plain, clock = plain[: found.start()].strip(), clock_of(found)
        parts = self._parts(plain)
        if parts is None:
            raise BadInput(f"date {quoted(text)} cannot be read; write it as 2026-03-05")
        year, month, day = parts
        try:
            return date(self._full_year(year, text), month, day), clock
        except ValueError:
            raise BadInput(f"{quoted(text)} is no day of the calendar ({self._order})") from None

    def _parts(self, plain: str) -> tuple[str, int, int] | None:
        if found := _NUMBERS.fullmatch(plain):
            first, second, third = found[1], int(found[2]), found[3] or ""
            if len(first) == 4:
                return (first, second, int(third)) if third else None
            one = int(first)
            return (third, second, one) if self._order == DAY_FIRST else (third, one, second)
        if (found := _DAY_MONTH.fullmatch(plain)) and found[2].casefold() in _MONTHS:
            return found[3] or "", _MONTHS[found[2].casefold()], int(found[1])
        if (found := _MONTH_DAY.fullmatch(plain)) and found[1].casefold() in _MONTHS:
            return found[3] or "", _MONTHS[found[1].casefold()], int(found[2])
        return None

    def _full_year(self, year: str, text: str) -> int:
        if not year:
            if self.year is None:
                raise BadInput(f"date {quoted(text)} has no year; say which with --year")
            return self.year
        number = int(year)
        if len(year) > 2:
            return number
        return number + (2000 if number <= self._today.year % 100 + 1 else 1900)


def clock_of(found: re.Match[str]) -> time | None:
    """The time of a match of hour, minute and am or pm; None where there is no such time."""
    hour, half = int(found[1]), (found[3] or "").casefold()
    if half:
        hour = hour % 12 + (12 if half == "pm" else 0)
    return time(hour, int(found[2])) if hour < 24 and int(found[2]) < 60 else None


def looks_like_day(text: str) -> bool:
    """Whether a cell can be read as a day in one order or the other."""
    for order in ORDERS:
        try:
            DayReader(order, date(2099, 1, 1), 2000).read(text)
        except BadInput:
            continue
        return True
    return False


def order_of(texts: Iterable[str], today: date) -> str:
    """The order of day and month that the values of a column prove; empty where they do not.

    Proof is a number above 12, or that the other order would put a record after today.
    """
    written = set(texts)
    if not needs_order(written):
        return DAY_FIRST
    pairs = _pairs(written)
    day_first = any(a > 12 for a, _, _ in pairs)
    month_first = any(b > 12 for _, b, _ in pairs)
    if day_first != month_first:
        return DAY_FIRST if day_first else MONTH_FIRST
    if day_first:
        return ""
    late = {order: _after(pairs, order, today) for order in ORDERS}
    if late[DAY_FIRST] != late[MONTH_FIRST]:
        return MONTH_FIRST if late[DAY_FIRST] else DAY_FIRST
    return ""


def needs_order(texts: Iterable[str]) -> bool:
    """Whether a day is another one with day and month the other way round: `2026-03-05` is not."""
    return any(a != b for a, b, _ in _pairs(texts))


def _pairs(texts: Iterable[str]) -> list[tuple[int, int, str]]:
    return [p for p in map(_pair, texts) if p is not None]


def _pair(text: str) -> tuple[int, int, str] | None:
    """First and second number, and the year's text, of a day that is written in numbers."""
    plain = _CLOCK.sub("", _WEEKDAY.sub("", text.strip()).strip())
    found = _NUMBERS.fullmatch(plain)
    if found is None or len(found[1]) == 4:
        return None
    return int(found[1]), int(found[2]), found[3] or ""


def _after(pairs: list[tuple[int, int, str]], order: str, today: date) -> bool:
    reader = DayReader(order, today, today.year)
    days = (reader.read(f"{a}/{b}/{year}")[0] for a, b, year in pairs if year)
    return any(day > today for day in days)


def month_of(text: str) -> tuple[int, int | None] | None:
    """Month and year of a heading such as `March 2026`, `Mar`, `2026-03` or `3/2026`."""
    plain = text.strip()
    if found := _MONTH_NUMBERS.fullmatch(plain):
        year, month = (found[1], found[2]) if found[1] else (found[4], found[3])
        return (int(month), int(year)) if 1 <= int(month) <= 12 else None
    found = _MONTH_HEADING.fullmatch(plain)
    if found is None or found[1].casefold() not in _MONTHS:
        return None
    year = found[2]
    return _MONTHS[found[1].casefold()], (
        int(year) + (2000 if int(year) < 100 else 0)
    ) if year else None
