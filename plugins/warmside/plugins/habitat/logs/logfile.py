"""A logger's file as readings: a column of times, a column for each probe."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator, Sequence
from itertools import islice
from statistics import median
from zoneinfo import ZoneInfo

from msgspec import Struct

from warmside.api import BadInput, near_miss
from warmside.plugins.habitat.logs.clock import Times
from warmside.plugins.habitat.logs.probes import PER_UNIT, SPANS, Logger, Measure, Probe

SEPARATORS = ",;\t"
MOST_ABOVE = 60
"""So many lines of a title may stand above the columns' names."""
TOLD = 5
HOTTEST_MIDDLE_C = 50.0
"""The air of an enclosure is never so hot half of the time (common practice, no source)."""

Reading = tuple[int, int, int]
"""Probe id, seconds since 1970, thousandths of the stored unit."""


class Problems(Struct):
    """What cannot be read: the first few in words, all of them counted; and what is doubtful."""

    number: int = 0
    words: list[str] = []
    doubt: str = ""

    def add(self, line: int, what: str) -> None:
        """Note one more."""
        self.number += 1
        if len(self.words) < TOLD:
            self.words.append(f"line {line}: {what}")

    def __str__(self) -> str:
        more = f"; and {self.number - TOLD} more" if self.number > TOLD else ""
        return "; ".join(self.words) + more


class Columns(Struct, frozen=True):
    """Where a file's table begins (lines to pass over), what parts it, and its columns' names."""

    above: int
    separator: str
    names: tuple[str, ...]


def columns_of(lines: Iterable[str], logger: Logger, probes: Sequence[Probe]) -> Columns:
    """The head of the table; BadInput where a column of the logger is missing."""
    wanted = [logger.time_column, *(p.column for p in probes)]
    best: tuple[str, ...] = ()
    for above, line in enumerate(islice(lines, MOST_ABOVE)):
        parted = max(SEPARATORS, key=line.count)
        names = tuple(n.strip() for n in next(csv.reader([line], delimiter=parted), []))
        if all(name in names for name in wanted):
            return Columns(above + 1, parted, names)
        best = max(best, names, key=len)
    missing = next((n for n in wanted if n not in best), wanted[0])
    known = ", ".join(n for n in best if n) or "none"
    raise BadInput(f"there is no column {missing!r}{near_miss(missing, best)}; it has: {known}")


def readings(
    lines: Iterable[str],
    columns: Columns,
    logger: Logger,
    probes: Sequence[Probe],
    zone: ZoneInfo,
    now: int,
    problems: Problems,
) -> Iterator[Reading]:
    """Each reading of the table, in its order; a row that cannot be read is noted, not given.

    An empty cell is no reading.
    """
    source = islice(lines, columns.above, None)
    times = Times(logger.order, logger.clock, zone, now)
    place = columns.names.index(logger.time_column)
    parsers = [(columns.names.index(p.column), p.id, Cells(p, columns.separator)) for p in probes]
    last: list[str] = []
    reader = csv.reader(source, delimiter=columns.separator)
    for cells in reader:
        try:
            if not any(cells):
                continue
            at = times.seconds(cells[place].strip())
            if last and cells[place] == last[place] and cells != last and times.stands:
                raise ValueError(f"{cells[place]} is there twice, with other values")
            last = cells
            row = [(id, at, parse(cells[i])) for i, id, parse in parsers if cells[i].strip()]
        except IndexError:
            said = f"{len(cells)} columns, {len(columns.names)} are wanted"
            problems.add(reader.line_num + columns.above, said)
        except ValueError as error:
            problems.add(reader.line_num + columns.above, str(error))
        else:
            yield from row
    problems.doubt = "; ".join(odd for _, _, parse in parsers if (odd := parse.doubt))


class Cells:
    """Cells of one probe's column as stored numbers; each text is worked out once."""

    def __init__(self, probe: Probe, separator: str) -> None:
        self._probe, self._decimal_comma = probe, separator != ","
        self._known: dict[str, int] = {}

    def __call__(self, text: str) -> int:
        """Thousandths of the stored unit; raises ValueError for what no probe measures."""
        found = self._known.get(text)
        if found is None:
            found = self._known[text] = self._stored(text)
        return found

    @property
    def doubt(self) -> str:
        """Air that was hotter half of the time than any enclosure is: that is Fahrenheit."""
        probe = self._probe
        if probe.measure is not Measure.AIR or probe.fahrenheit or not self._known:
            return ""
        middle = median(self._known.values()) / PER_UNIT
        if middle <= HOTTEST_MIDDLE_C:
            return ""
        return (
            f"{probe.column!r} was at about {middle:.0f} °C; is it Fahrenheit? then take the "
            f"logger back and hang it with {probe.column}={probe.zone}:air:F"
        )

    def _stored(self, text: str) -> int:
        try:
            typed = float(text.replace(",", ".") if self._decimal_comma else text)
        except ValueError:
            raise ValueError(
                f"{text.strip()[:20]!r} in {self._probe.column!r} is no number"
            ) from None
        value = (typed - 32) * 5 / 9 if self._probe.fahrenheit else typed
        least, most = SPANS[self._probe.measure]
        if not least <= value <= most:
            raise ValueError(
                f"{text.strip()[:20]} in {self._probe.column!r} is nothing that a probe of "
                f"{self._probe.measure} measures: look at its unit"
            )
        return round(value * PER_UNIT)
