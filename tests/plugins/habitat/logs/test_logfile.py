"""A logger's file as readings: titles above, separators, units, and what cannot be read."""

from __future__ import annotations

from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import pytest

from warmside.api import BadInput
from warmside.plugins.habitat.logs.clock import Clock, Order
from warmside.plugins.habitat.logs.logfile import Problems, columns_of, readings
from warmside.plugins.habitat.logs.probes import Logger, Measure, Probe, typed_probe

LOGGER = Logger(1, 1, "grey", "time", Order.YMD, Clock.UTC, 7, date(2026, 1, 1))
WARM = Probe(1, 1, "Temp 1", "warm side", Measure.AIR)
DAMP = Probe(2, 1, "RH", "hide", Measure.HUMIDITY)
NOW = int(datetime(2027, 1, 1, tzinfo=UTC).timestamp())
FIRST = int(datetime(2026, 3, 5, 8, tzinfo=UTC).timestamp())


def read(text: str, *probes: Probe) -> tuple[list[tuple[int, int, int]], str]:
    lines, mine = text.splitlines(keepends=True), probes or (WARM, DAMP)
    columns, problems = columns_of(lines, LOGGER, mine), Problems()
    found = list(readings(lines, columns, LOGGER, mine, ZoneInfo("UTC"), NOW, problems))
    return found, str(problems)


def test_titles_above_and_the_separators_of_the_trade() -> None:
    wanted = [(1, FIRST, 31_200), (2, FIRST, 55_000)]
    assert read("time,Temp 1,RH\n2026-03-05 08:00,31.2,55\n") == (wanted, "")
    assert read("Logger;7\n\ntime;Temp 1;RH\n2026-03-05 08:00;31,2;55,0\n") == (wanted, "")
    assert read("x\ttime\tTemp 1\tRH\n1\t2026-03-05 08:00\t31.2\t55\n") == (wanted, "")


def test_fahrenheit_is_stored_as_celsius() -> None:
    probe = Probe(1, 1, "Temp 1", "warm side", Measure.AIR, fahrenheit=True)
    assert read("time,Temp 1\n2026-03-05 08:00,86\n", probe)[0] == [(1, FIRST, 30_000)]


def test_an_empty_cell_is_no_reading() -> None:
    assert read("time,Temp 1,RH\n2026-03-05 08:00,,55\n")[0] == [(2, FIRST, 55_000)]


@pytest.mark.parametrize(
    ("rows", "told"),
    [
        ("2026-03-05 08:00,warm,55", "line 2: 'warm' in 'Temp 1' is no number"),
        ("2026-03-05 08:00,31.2", "line 2: 2 columns, 3 are wanted"),
        ("2026-03-05 08:00,186,55", "line 2: 186 in 'Temp 1' is nothing that a probe of air"),
        ("2026-03-05 08:00,31.2,120", "line 2: 120 in 'RH' is nothing that a probe of humidity"),
        ("2026-03-05 08:00,31,55\n05.03.2026 08:05,31,55", "line 3: '05.03.2026 08:05' is written"),
        ("2026-03-05 08:00,31,55\n2026-03-05 08:00,32,55", "line 3: .* twice, with other values"),
    ],
)
def test_a_row_that_cannot_be_read_is_named_by_its_line(rows: str, told: str) -> None:
    import re

    assert re.search(told, read(f"time,Temp 1,RH\n{rows}\n")[1])


def test_many_bad_rows_are_counted() -> None:
    rows = "2026-03-05 08:00,x,55\n" * 9
    assert read(f"time,Temp 1,RH\n{rows}")[1].endswith("; and 4 more")


def test_a_missing_column_is_named_with_those_that_are_there() -> None:
    with pytest.raises(BadInput, match=r"no column 'RH'.*it has: time, Temp 1, Humidity"):
        read("time,Temp 1,Humidity\n")


def test_probes_as_they_are_typed() -> None:
    assert typed_probe("Temp 1=warm side") == ("Temp 1", "warm side", Measure.AIR, False)
    assert typed_probe("a=b=stone:surface:f") == ("a=b", "stone", Measure.SURFACE, True)
    for wrong in ("Temp 1", "=warm", "a=", "a=b:c:d:e", "a=b:heat", "a=b:humidity:F", "a=b:air:K"):
        with pytest.raises(BadInput):
            typed_probe(wrong)
