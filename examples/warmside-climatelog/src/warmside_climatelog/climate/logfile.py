"""A logger's file as readings: a column of times, a column of temperatures.

Times without an offset from UTC are on the clock of the collection's zone.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime
from zoneinfo import ZoneInfo

from warmside_climatelog.climate.sensors import PER_DEGREE

SEPARATORS = ",;\t"
FIRST_YEAR = 1990  # before it no logger of this kind was made: its clock was never set
COLDEST_C, WARMEST_C = -60.0, 120.0
TOLD = 5

Row = tuple[int, int]
"""Seconds since 1970 and thousandths of a degree Celsius."""


@dataclass(slots=True)
class Problems:
    """What cannot be read: the first few in words, all of them counted."""

    number: int = 0
    words: list[str] = field(default_factory=list)

    def add(self, line: int, what: str) -> None:
        """Note one more."""
        self.number += 1
        if len(self.words) < TOLD:
            self.words.append(f"line {line}: {what}")

    def __str__(self) -> str:
        more = f"; and {self.number - TOLD} more" if self.number > TOLD else ""
        return "; ".join(self.words) + more


@dataclass(frozen=True, slots=True)
class Form:
    """How a file is written: the names of its columns, the zone and unit of what they hold."""

    time: str
    value: str
    zone: ZoneInfo
    fahrenheit: bool = False


def separator(header: str) -> str:
    """What parts the columns, by the first line."""
    return max(SEPARATORS, key=header.count)


def header_of(line: str) -> list[str]:
    """The names of the columns."""
    names = next(csv.reader([line], delimiter=separator(line)), [])
    return [name.strip() for name in names]


def rows(
    lines: Iterable[str], form: Form, columns: list[str], now: datetime, problems: Problems
) -> Iterator[Row]:
    """Each reading below the header; one that cannot be read is noted and passed over."""
    times, values = columns.index(form.time), columns.index(form.value)
    source = iter(lines)
    parted = separator(next(source, ""))
    clock = _Clock(form.zone, int(now.timestamp()))
    reader = csv.reader(source, delimiter=parted)
    for cells in reader:
        if not any(cells):
            continue
        try:
            text = cells[values].replace(",", ".") if parted != "," else cells[values]
            yield clock.seconds(cells[times].strip()), thousandths(text, form.fahrenheit)
        except IndexError:
            problems.add(reader.line_num + 1, f"{len(cells)} columns, {len(columns)} are wanted")
        except ValueError as error:
            problems.add(reader.line_num + 1, str(error))


def thousandths(text: str, fahrenheit: bool = False) -> int:
    """A temperature as stored; raises ValueError for what no logger measures."""
    try:
        typed = float(text)
    except ValueError:
        raise ValueError(f"{text.strip()[:20]!r} is no temperature") from None
    degrees = (typed - 32) * 5 / 9 if fahrenheit else typed
    if not COLDEST_C <= degrees <= WARMEST_C:
        raise ValueError(f"{text.strip()[:20]} is no temperature that a logger measures")
    return round(degrees * PER_DEGREE)


class _Clock:
    """Times of a file as instants; of an hour that comes twice, the one after the last reading."""

    def __init__(self, zone: ZoneInfo, now: int) -> None:
        self._zone = zone
        self._now = now
        self._last = 0

    def seconds(self, text: str) -> int:
        """The instant; raises ValueError saying what is wrong with it."""
        try:
            written = datetime.fromisoformat(text)
        except ValueError:
            raise ValueError(
                f"time {text[:30]!r} cannot be read; it is written as 2026-03-05 08:30"
            ) from None
        at = int(written.timestamp()) if written.tzinfo else self._local(written)
        if written.year < FIRST_YEAR:
            raise ValueError(f"{text} is before {FIRST_YEAR}: the logger's clock was not set")
        if at > self._now:
            raise ValueError(f"{text} has not come yet: the logger's clock is wrong")
        self._last = at
        return at

    def _local(self, written: datetime) -> int:
        first, second = (written.replace(tzinfo=self._zone, fold=f) for f in (0, 1))
        at = int(first.timestamp())
        if first.utcoffset() == second.utcoffset():
            return at
        if datetime.fromtimestamp(at, UTC).astimezone(self._zone).replace(tzinfo=None) != written:
            raise ValueError(f"{written} never came: the clock jumped forward over it")
        return at if at > self._last else int(second.timestamp())
