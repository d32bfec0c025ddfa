"""Dates read in a stated format, for tables from elsewhere: nothing is guessed.

`YYYY` year, `MM` month, `DD` day, `HH` hour to 23, `hh` hour to 12 with `AM` for am or pm, `mm`
minute, `ss` second; anything between that is no letter stands for itself, and so does `T`.
"""

from __future__ import annotations

import re
from datetime import date, time
from functools import lru_cache

from warmside.core.values.calendar_checks import calendar_day, clock_time
from warmside.core.values.errors import BadInput
from warmside.core.values.hints import quoted

_DIGITS = {"YYYY": 4, "MM": 2, "DD": 2, "HH": 2, "hh": 2, "mm": 2, "ss": 2}
_TOKENS = re.compile("|".join([*_DIGITS, "AM"]) + "|T|[^A-Za-z]|(?P<wrong>.)", re.DOTALL)
_TIMES: tuple[set[str], ...] = (
    set(),
    {"HH", "mm"},
    {"HH", "mm", "ss"},
    {"hh", "mm", "AM"},
    {"hh", "mm", "ss", "AM"},
)


def parse_stated(text: str, fmt: str) -> tuple[date, time | None]:
    """The day, and the time where the format has one, of a text in a format such as `DD.MM.YYYY`.

    Day, month and hour may lack their leading zero. Raises BadInput naming value and format.
    """
    found = _pattern(fmt.strip()).fullmatch(" ".join(text.split()))
    if found is None:
        raise BadInput(
            f"date {quoted(text)} is not in the format {fmt}; check the value or the format"
        )
    parts = found.groupdict()
    try:
        day = calendar_day(int(parts["YYYY"]), int(parts["MM"]), int(parts["DD"]), text)
        return day, _time(parts, text)
    except BadInput as wrong:
        raise BadInput(f"{wrong} (read as {fmt})") from None


def _time(parts: dict[str, str], text: str) -> time | None:
    if "mm" not in parts:
        return None
    hour = _noon_based(parts, text) if "AM" in parts else int(parts["HH"])
    return clock_time(hour, int(parts["mm"]), int(parts.get("ss", 0)), text)


def _noon_based(parts: dict[str, str], text: str) -> int:
    """The hour of day of a twelve-hour clock: 12 am is midnight, 12 pm noon."""
    hour = int(parts["hh"])
    if not 1 <= hour <= 12:
        raise BadInput(f"{quoted(text)} is no time of day; a clock with am and pm shows 1 to 12")
    return hour % 12 + (12 if parts["AM"].casefold() == "pm" else 0)


@lru_cache(maxsize=32)
def _pattern(fmt: str) -> re.Pattern[str]:
    """The pattern of a format; BadInput if a part is unknown, doubled or missing."""
    tokens = list(_TOKENS.finditer(" ".join(fmt.split())))
    fields = [t[0] for t in tokens if t[0] in _DIGITS or t[0] == "AM"]
    dated = [f for f in fields if f in ("YYYY", "MM", "DD")]
    timed = [f for f in fields if f not in dated]
    complete = sorted(dated) == ["DD", "MM", "YYYY"] and set(timed) in _TIMES
    if not complete or len(timed) != len(set(timed)) or any(t["wrong"] for t in tokens):
        raise BadInput(
            f"date format {quoted(fmt)} cannot be used; write it with YYYY, MM and DD, and HH, mm "
            "and ss for a time, such as DD.MM.YYYY HH:mm"
        )
    texts = ["", *(t[0] for t in tokens), ""]
    around = zip(texts, texts[1:], texts[2:], strict=False)
    return re.compile("".join(_part(text, {before, after}) for before, text, after in around))


def _part(text: str, beside: set[str]) -> str:
    """The pattern of one part of a format; digits that touch other digits need all places."""
    if text == "AM":
        return "(?P<AM>[AaPp][Mm])"
    if text not in _DIGITS:
        return re.escape(text)
    most = _DIGITS[text]
    least = most if text == "YYYY" or beside & _DIGITS.keys() else 1
    return f"(?P<{text}>[0-9]{{{least},{most}}})"
