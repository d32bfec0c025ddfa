"""Charts and timelines as JSON data, from which another program could draw them."""

from __future__ import annotations

import math
from datetime import date, datetime, timedelta

from warmside.core.answers.parts import Band, Chart, Line, Timeline, TimelineRow
from warmside.faces.json_values import Json


def chart_data(chart: Chart) -> Json:
    """Lines, bands and marks; y keys end in the unit; x is a date, or a local time within it."""
    return {
        "title": chart.title,
        "x_title": chart.x_title,
        "y_title": chart.y_title,
        "y_unit": chart.y_unit.code,
        "lines": [_line(line, chart) for line in chart.lines],
        "bands": [_band(band, chart) for band in chart.bands],
        "marks": [
            {"title": row.title, "sign": row.sign, "x": _xs(row.x, chart)} for row in chart.marks
        ],
    }


def timeline_data(timeline: Timeline) -> Json:
    """Rows of spans, both ends included, and moments; `today` is null where it is not given."""
    return {
        "title": timeline.title,
        "start": timeline.start.isoformat(),
        "end": timeline.end.isoformat(),
        "today": timeline.today.isoformat() if timeline.today else None,
        "rows": [_row(row) for row in timeline.rows],
    }


def _line(line: Line, chart: Chart) -> Json:
    return {
        "title": line.title,
        "points": line.points,
        "x": _xs(line.x, chart),
        "y" + chart.y_unit.suffix: [_number(y) for y in line.y],
    }


def _band(band: Band, chart: Chart) -> Json:
    suffix = chart.y_unit.suffix
    return {
        "title": band.title,
        "x": _xs(band.x, chart),
        "low" + suffix: [_number(y) for y in band.low],
        "high" + suffix: [_number(y) for y in band.high],
    }


def _row(row: TimelineRow) -> Json:
    return {
        "title": row.title,
        "spans": [
            {
                "start": span.start.isoformat(),
                "end": span.end.isoformat(),
                "label": span.label,
                "strong": span.strong,
            }
            for span in row.spans
        ],
        "moments": [
            {"day": m.day.isoformat(), "sign": m.sign, "label": m.label} for m in row.moments
        ],
    }


def _xs(xs: tuple[float, ...], chart: Chart) -> list[object]:
    return [_day(x) if chart.dates else _number(x) for x in xs]


def _day(x: float) -> str | None:
    """A date for a whole ordinal, a local time to the second for one with a fraction."""
    if not (math.isfinite(x) and 1 <= x < date.max.toordinal()):
        return None
    day = date.fromordinal(math.floor(x))
    if x == math.floor(x):
        return day.isoformat()
    seconds = round((x - math.floor(x)) * 86_400)
    return (datetime(day.year, day.month, day.day) + timedelta(seconds=seconds)).isoformat()


def _number(y: float | None) -> float | None:
    return y if y is not None and math.isfinite(y) else None
