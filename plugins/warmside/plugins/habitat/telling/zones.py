"""The zones of an enclosure as measured: tables, the spread from warm to cool, the day's curve."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

from msgspec import Struct

from warmside.api import (
    Basis,
    Cell,
    Column,
    Fact,
    Mark,
    Part,
    Source,
    Table,
    Tone,
    Unit,
    charts,
    paragraphs,
)
from warmside.plugins.habitat.gradient.swing import Swing
from warmside.plugins.habitat.gradient.zones import Target, ZoneSummary
from warmside.plugins.habitat.logs.probes import Measure, Probe

THERMOMETER = "Probes drift: hold each beside a thermometer you trust now and then."
OWN = Source("the readings of the loggers", Mark.KEEPERS_OWN)
TITLES = {
    Measure.AIR: ("air", "Air"),
    Measure.SURFACE: ("surface", "Surfaces"),
    Measure.HUMIDITY: ("humidity", "Humidity"),
    Measure.UV: ("uv", "UV index"),
}
QUARTER_S = 900


class Measured(Struct, frozen=True):
    """A probe with its summary and its target; `swing` where the readings turn often enough.

    `logger` tells it from others in its zone, where there are any.
    """

    probe: Probe
    summary: ZoneSummary
    target: Target | None
    swing: Swing | None = None
    logger: str = ""


def zone_parts(measured: Sequence[Measured]) -> tuple[Part, ...]:
    """A table for each measure, the spread from warm to cool, what the numbers rest on."""
    parts: list[Part] = []
    for measure in Measure:
        rows = [m for m in measured if m.probe.measure is measure]
        if rows:
            parts += [_table(measure, rows), *_further(measure, rows)]
    return (*_spread(measured), *parts, *paragraphs(THERMOMETER, tone=Tone.CAUTION))


def _spread(measured: Sequence[Measured]) -> tuple[Fact, ...]:
    """From the middle of the coolest zone by day to that of the warmest.

    Of several probes in one zone that with the most readings counts.
    """
    days = [(m.probe.zone, m.summary.day) for m in measured if m.probe.measure is Measure.AIR]
    known = [(zone, day) for zone, day in days if day]
    middles = {zone: day.middle for zone, day in sorted(known, key=lambda one: one[1].readings)}
    if len(middles) < 2:
        return ()
    cool, warm = min(middles, key=lambda z: middles[z]), max(middles, key=lambda z: middles[z])
    spread, unit = middles[warm] - middles[cool], Unit.TEMPERATURE_DIFFERENCE
    rule = f"the middle by day of {warm} less that of {cool}"
    return (Fact("spread", "from cool to warm by day", spread, unit, Basis(rule, OWN)),)


def _table(measure: Measure, rows: Sequence[Measured]) -> Table:
    unit = measure.unit
    columns = (
        *_zone_columns(rows),
        Column("low", "least", unit),
        Column("middle", "middle", unit),
        Column("high", "most", unit),
        Column("day_middle", "by day", unit),
        Column("night_middle", "by night", unit),
        Column("target_low", "from", unit),
        Column("target_high", "to", unit),
        Column("target_by", "target", below=True),
        Column("readings", "readings", Unit.COUNT, text=False),
        Column("offset", "offset", text=False),
    )
    key, title = TITLES[measure]
    return Table(key, columns, tuple(_row(m) for m in rows), title=title)


def _zone_columns(rows: Sequence[Measured]) -> tuple[Column, Column]:
    """The zone, and the logger where two hang in one."""
    return Column("zone", "zone"), Column("logger", "logger", text=any(m.logger for m in rows))


def _row(m: Measured) -> tuple[Cell, ...]:
    s, day = m.summary, m.target.day if m.target else None
    return (
        m.probe.zone,
        m.logger or None,
        s.whole.low,
        s.whole.middle,
        s.whole.high,
        s.day.middle if s.day else None,
        s.night.middle if s.night else None,
        *(day or (None, None)),
        m.target.by if m.target and m.target.by else None,
        s.whole.readings,
        f"{m.probe.offset / 1000:g}",
    )


def _further(measure: Measure, rows: Sequence[Measured]) -> tuple[Table, ...]:
    """Time outside the span; gaps of the log, and how the air swings."""
    key = TITLES[measure][0]
    with_target = [m for m in rows if m.summary.outside]
    outside = Table(
        f"{key}_outside",
        (
            *_zone_columns(with_target),
            Column("hours_over", "over", Unit.HOURS),
            Column("hours_under", "under", Unit.HOURS),
            Column("covered", "of", Unit.HOURS),
            *_amounts(measure),
        ),
        tuple(_outside_row(m) for m in with_target),
        title="Time outside the span",
    )
    log = Table(
        f"{key}_log",
        (
            *_zone_columns(rows),
            Column(
                "night_drop",
                "night drop",
                Unit.TEMPERATURE_DIFFERENCE if measure.is_temperature else measure.unit,
                text=measure.is_temperature,
            ),
            Column("gaps", "gaps", Unit.COUNT),
            Column("gap_hours", "in all", Unit.HOURS),
            Column("swing", "swing", Unit.TEMPERATURE_DIFFERENCE, text=measure is Measure.AIR),
            Column("swing_minutes", "every", Unit.MINUTES, text=measure is Measure.AIR),
        ),
        tuple(_log_row(m) for m in rows),
        title="Night drop, gaps of the log, and how a thermostat swings",
    )
    told = (log,) if any(_has_log(m) for m in rows) else ()
    return ((outside,) if with_target else ()) + told


def _amounts(measure: Measure) -> tuple[Column, ...]:
    if not measure.is_temperature:
        return ()
    return (
        Column("amount_over", "too warm by", Unit.DEGREE_HOURS),
        Column("amount_under", "too cold by", Unit.DEGREE_HOURS),
    )


def _outside_row(m: Measured) -> tuple[Cell, ...]:
    out = m.summary.outside
    assert out is not None
    amounts = (out.over, out.under) if m.probe.measure.is_temperature else ()
    return (
        m.probe.zone,
        m.logger or None,
        out.hours_over,
        out.hours_under,
        m.summary.covered,
        *amounts,
    )


def _log_row(m: Measured) -> tuple[Cell, ...]:
    swing = (m.swing.height, m.swing.minutes) if m.swing else (None, None)
    gaps = (m.summary.gaps.number, m.summary.gaps.hours)
    return (m.probe.zone, m.logger or None, m.summary.night_drop, *gaps, *swing)


def _has_log(m: Measured) -> bool:
    drop = m.summary.night_drop is not None and m.probe.measure.is_temperature
    return drop or m.swing is not None or m.summary.gaps.number > 0


def day_curve(
    on: date, curves: Sequence[tuple[str, Sequence[tuple[int, float]]]], zone: ZoneInfo
) -> charts.Chart:
    """The air of each zone over the hours of a day, drawn by quarter hours."""
    lines = tuple(_line(name, readings, zone) for name, readings in curves)
    return charts.Chart(
        "day",
        f"Air on {on}",
        "hour of the day",
        "temperature",
        Unit.TEMPERATURE,
        lines,
        axis=charts.Axis.HOURS,
    )


def _line(name: str, readings: Sequence[tuple[int, float]], zone: ZoneInfo) -> charts.Line:
    by_quarter: dict[int, list[float]] = {}
    for at, value in readings:
        by_quarter.setdefault(at // QUARTER_S, []).append(value)
    x: list[float] = []
    y: list[float | None] = []
    for quarter, values in by_quarter.items():
        local = datetime.fromtimestamp(quarter * QUARTER_S, UTC).astimezone(zone)
        hour = local.hour + local.minute / 60 + 0.125
        if x and hour - x[-1] > 2:
            x.append(hour)
            y.append(None)
        x.append(hour)
        y.append(sum(values) / len(values))
    return charts.Line(name, tuple(x), tuple(y))
