"""The computation alone: a logger's file, days and hours, silence. All readings are invented."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from warmside_climatelog.climate.change import Change, fastest
from warmside_climatelog.climate.days import by_clock, days_of, whole, with_pauses
from warmside_climatelog.climate.limits import in_use, probe_due, silent_hours
from warmside_climatelog.climate.logfile import Form, Problems, header_of, rows, thousandths
from warmside_climatelog.climate.sensors import Reading, Sensor

VIENNA = ZoneInfo("Europe/Vienna")
NOW = datetime(2026, 3, 5, 12, tzinfo=UTC)
DAY = date(2026, 3, 5)
SENSOR = Sensor(1, 1, "Warm end", "warm", 400, (200, 150), DAY)


def read(*lines: str, fahrenheit: bool = False) -> tuple[list[tuple[int, int]], Problems]:
    """The readings of a file's lines, and what cannot be read in it."""
    problems = Problems()
    form = Form("time", "value", VIENNA, fahrenheit)
    return list(rows(lines, form, header_of(lines[0]), NOW, problems)), problems


def seconds(*moment: int) -> int:
    return int(datetime(*moment, tzinfo=UTC).timestamp())  # type: ignore[misc,arg-type]


@pytest.mark.parametrize(
    "lines",
    [
        ("time,value", "2026-03-05 08:30,31.25"),
        ("time;value", "2026-03-05 08:30;31,25"),
        ("n\tvalue\ttime", "1\t31.25\t2026-03-05T07:30:00Z"),
        ("time,value", "2026-03-05T09:30+02:00,31.2501"),
    ],
)
def test_a_reading_is_an_instant_and_thousandths_however_it_is_written(
    lines: tuple[str, ...],
) -> None:
    assert read(*lines)[0] == [(seconds(2026, 3, 5, 7, 30), 31250)]


def test_an_hour_that_comes_twice_goes_on_and_one_that_never_came_is_told() -> None:
    """Clocks of Vienna: set back on 26 October 2025 at 3:00, forward on 30 March 2025 at 2:00."""
    twice = [f"2025-10-26 {c},20" for c in ("02:00", "02:30", "02:00", "02:30", "03:00")]
    found, problems = read("time,value", *twice)
    first = seconds(2025, 10, 26)
    assert [at - first for at, _ in found] == [0, 1800, 3600, 5400, 7200]
    assert problems.number == 0
    _, problems = read("time,value", "2025-03-30 02:30,20")
    assert "line 2: 2025-03-30 02:30:00 never came" in str(problems)


def test_every_row_that_cannot_be_read_is_counted_and_the_first_are_named() -> None:
    wrong = ("soon,20", "2026-03-05 08:00,warm", "2026-03-05 08:00", "1970-01-01 00:00,20")
    more = ("2027-01-01,20", "2026-03-05 08:00,nan", "2026-03-05 08:00,900")
    found, problems = read("time,value", *wrong, "2026-03-05 08:00,21", *more)
    assert [value for _, value in found] == [21000]
    assert problems.number == 7
    told = str(problems)
    assert told.startswith("line 2: time 'soon' cannot be read")
    for words in ("line 3: 'warm' is no temperature", "line 4: 1 columns, 2 are wanted"):
        assert words in told
    assert "line 5: 1970-01-01 00:00 is before 1990" in told
    assert "line 7: 2027-01-01 has not come yet" in told
    assert told.endswith("; and 2 more")


def test_fahrenheit_is_read_by_its_two_fixed_points() -> None:
    """NIST Special Publication 811 (2008), appendix B.8: 32 °F is 0 °C, 212 °F is 100 °C."""
    assert (thousandths("32", True), thousandths("212", True)) == (0, 100_000)


def test_days_begin_at_midnight_of_the_zone_and_know_their_extremes() -> None:
    """23:00 UTC is midnight in Vienna in winter."""
    midnight = seconds(2026, 3, 4, 23) // 900
    quarters = [
        (midnight - 1, 19000, 20000, 39000, 2),
        (midnight, 21000, 21000, 21000, 1),
        (midnight + 40, 24000, 33000, 87000, 3),
    ]
    found = days_of(quarters, VIENNA)
    assert list(found) == [date(2026, 3, 4), DAY]
    assert (found[DAY].low, found[DAY].high, found[DAY].readings) == (21000, 33000, 4)
    assert found[DAY].mean == pytest.approx((21000 + 87000) / 4)
    assert whole(quarters[:1]).mean == 19500


def test_the_curve_is_by_the_clock_and_breaks_where_nothing_was_measured() -> None:
    first = seconds(2026, 3, 5, 7, 0) // 900
    points = by_clock([(first + n, 0, 0, 20000 + n, 1) for n in (0, 1, 20)], VIENNA)
    assert points == [(8.125, 20000), (8.375, 20001), (13.125, 20020)]
    assert [y for _, y in with_pauses(points)] == [20000, 20001, None, 20020]


def test_the_fastest_change_is_of_an_hour_up_or_down_and_never_across_a_pause() -> None:
    cooling = [(6.125, 30.0), (6.375, 30.0), (7.125, 31.0), (7.375, 26.5), (9.125, 20.0)]
    assert fastest(cooling) == Change(-3.5, 7.375)
    assert fastest([(6.125, 20.0), (7.375, 30.0)]) is None


def test_silence_counts_from_the_last_reading_or_from_when_the_sensor_was_hung() -> None:
    hung, now = 1_000_000, 1_000_000 + 50 * 3600
    assert silent_hours(None, hung, now) == 50
    assert silent_hours(Reading(now - 3600, 20.0), hung, now) == 1
    assert silent_hours(Reading(hung - 86_400, 20.0), hung, now) == 50


def test_a_sensor_is_in_use_from_its_first_day_until_it_is_stopped() -> None:
    stopped = Sensor(1, 1, "x", "warm", 0, None, DAY, stopped=DAY + timedelta(days=2))
    used = [in_use(stopped, DAY + timedelta(days=n)) for n in (-1, 0, 1, 2)]
    assert used == [False, True, True, False]
    assert not in_use(Sensor(1, None, "x", "warm", 0, None, DAY), DAY)
    assert probe_due(SENSOR, 180) == DAY + timedelta(days=180)


def test_the_offset_of_the_probe_is_added_to_what_it_measured() -> None:
    assert SENSOR.degrees(31250) == pytest.approx(31.65)
