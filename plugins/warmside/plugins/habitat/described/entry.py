"""One table of a description file, read key by key; what is wrong is told with file and line."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any, NoReturn

from warmside.api import BadInput, Unit, near_miss, parse_quantity
from warmside.plugins.habitat.described.enclosure import Place, Span

HOTTEST_C = 60.0
"""A warmer target is Fahrenheit typed as Celsius, or a mistake."""


class Entry:
    """The keys of a table; `nth` is which one of its name, from 1, or 0 for the top of the file."""

    def __init__(self, data: Mapping[str, Any], name: str, nth: int, text: str, file: str) -> None:
        self._data = dict(data)
        self._name, self._nth = name, nth
        self._text, self._file = text, file

    def wrong(self, key: str, what: str) -> NoReturn:
        """Raise BadInput that names the file, if there is one, and the line of a key."""
        where = f"{self._file}, line {self._line(key)}: " if self._file else ""
        raise BadInput(f"{where}{what}")

    def words(self, key: str, default: str | None = "", among: Sequence[str] = ()) -> str:
        """A text; without `default` (None) it is needed, and it is one of `among` where given."""
        value = self._data.pop(key, default)
        if not isinstance(value, str) or (default is None and not value):
            self.wrong(key, f"{key} is needed, as a text in quotes")
        if among and value and value not in among:
            self.wrong(key, f"{key} is one of {', '.join(among)}, not {value!r}")
        return value

    def length(self, key: str, default: float | None = None, least: float = 0.0) -> float:
        """A length in mm, typed with its unit; above 0 where `least` is."""
        if key not in self._data and default is not None:
            return default
        found = self._quantity(key, self._data.pop(key, None), Unit.LENGTH)
        if found < least:
            self.wrong(key, f"{key} is above 0, not {found / 10:g} cm")
        return found

    def area(self, key: str) -> float:
        """An open area in mm2, typed with its unit, above 0."""
        found = self._quantity(key, self._data.pop(key, None), Unit.AREA)
        if found <= 0:
            self.wrong(key, f"{key} is above 0, such as 60cm2")
        return found

    def place(self) -> Place:
        """Where the thing is and how large."""
        corner = (self.length(key, 0.0) for key in ("left", "front", "bottom"))
        return Place(*corner, *(self.length(k, 0.0) for k in ("width", "depth", "height")))

    def span(self, key: str, unit: Unit, most: float) -> Span | None:
        """Two values, lower and upper, or None where the key is not there."""
        if key not in self._data:
            return None
        value = self._data.pop(key)
        if not isinstance(value, list) or len(value) != 2:
            self.wrong(key, f"{key} is two texts, the lower and the upper one")
        low, high = (self._quantity(key, one, unit) for one in value)
        if not 0 <= low <= high:
            self.wrong(key, f"{key} goes from the lower to the upper, both from 0 on")
        if high > most:
            hint = "; is it Fahrenheit? then write it with F" if unit is Unit.TEMPERATURE else ""
            self.wrong(key, f"{key} of {high:g} is over {most:g}{hint}")
        return Span(low, high)

    def numbers(self, key: str, default: Span) -> Span:
        """Two bare numbers above 0, lower and upper."""
        value = self._data.pop(key, list(default))
        if not isinstance(value, list) or len(value) != 2 or not all(map(_is_number, value)):
            self.wrong(key, f"{key} is two numbers, such as [0.5, 2.0]")
        if not 0 < value[0] <= value[1] <= 1000:
            self.wrong(key, f"{key} goes from the lower to the upper, both above 0")
        return Span(float(value[0]), float(value[1]))

    def number(self, key: str, most: float, default: float | None = None) -> float | None:
        """A bare number from 0 to `most`."""
        value = self._data.pop(key, default)
        if value is None:
            return None
        if not _is_number(value) or not 0 <= value <= most:
            self.wrong(key, f"{key} is a number from 0 to {most:g}, not {value!r}")
        return float(value)

    def yes(self, key: str, default: bool | None = None) -> bool:
        """True or false; needed without `default`, for nobody guesses whether it is safe."""
        value = self._data.pop(key, default)
        if not isinstance(value, bool):
            self.wrong(key, f"{key} is true or false; it has to be said")
        return value

    def day(self, key: str) -> date | None:
        """A day, or None where the key is not there."""
        value = self._data.pop(key, None)
        if value is not None and type(value) is not date:
            self.wrong(key, f"{key} is a day without quotes, such as 2026-03-01")
        return value

    def tables(self, key: str) -> list[Entry]:
        """The tables of that name, each an entry of its own."""
        value = self._data.pop(key, [])
        if not isinstance(value, list) or not all(isinstance(one, dict) for one in value):
            self.wrong(key, f"write each {key} below a line [[{key}]]")
        return [Entry(one, key, n, self._text, self._file) for n, one in enumerate(value, 1)]

    def end(self, known: Sequence[str]) -> None:
        """Refuse what nobody asked for: a key that is misspelt must not vanish."""
        for key in self._data:
            self.wrong(key, f"there is no {key!r} here{near_miss(key, list(known))}")

    def _quantity(self, key: str, value: object, unit: Unit) -> float:
        if not isinstance(value, str):
            near = near_miss(key, list(self._data)) if value is None else ""
            self.wrong(key, f"{key} is needed, as a text with its unit{near}")
        try:
            return parse_quantity(value, unit, what=key)
        except BadInput as wrong:
            self.wrong(key, str(wrong))

    def _line(self, key: str) -> int:
        """The line of a key in this table, or of the table's head where the key is missing."""
        name, head, counts = "", 1, Counter[str]()
        for n, line in enumerate(self._text.splitlines(), 1):
            begun = re.match(r"\s*\[\[\s*([\w-]+)\s*\]\]", line)
            if begun:
                name = begun[1]
                counts[name] += 1
            if (name, counts[name]) != (self._name, self._nth):
                continue
            head = n if begun else head
            if re.match(rf"\s*{re.escape(key)}\s*=", line):
                return n
        return head


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)
