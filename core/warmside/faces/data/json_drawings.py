"""Charts, timelines and drawings as JSON data, from which another program could draw them."""

from __future__ import annotations

import math
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from warmside.core.answers.parts import (
    Axis,
    Band,
    Bars,
    Chart,
    Drawing,
    Line,
    Timeline,
    TimelineRow,
)
from warmside.faces.data.json_values import Json, merge, plain_value


def chart_data(chart: Chart) -> Json:
    """Lines, bands, bars and marks; y keys end in the unit.

    x is a date or a local time within it, an instant in UTC, or a number, as the axis says.
    """
    return {
        "title": chart.title,
        "x_title": chart.x_title,
        "y_title": chart.y_title,
        "y_unit": chart.y_unit.code,
        "axis": chart.axis.value,
        "lines": [_line(line, chart) for line in chart.lines],
        "bands": [_band(band, chart) for band in chart.bands],
        "bars": [_bars(bars, chart) for bars in chart.bars],
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


def drawing_data(drawing: Drawing, zone: ZoneInfo) -> Json:
    """Title and size, and the drawing's own data beside them."""
    size = {"width": drawing.width, "height": drawing.height}
    whole: Json = {"title": drawing.title}
    whole |= {f"{side}_{drawing.unit}": length for side, length in size.items()}
    merge(whole, {str(key): plain_value(value, zone) for key, value in drawing.data.items()})
    return whole


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


def _bars(bars: Bars, chart: Chart) -> Json:
    return {
        "title": bars.title,
        "x": _xs(bars.x, chart),
        "y" + chart.y_unit.suffix: [_number(y) for y in bars.y],
        "width": bars.width,
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
    match chart.axis:
        case Axis.DAYS:
            return [_day(x) for x in xs]
        case Axis.INSTANTS:
            return [_instant(x) for x in xs]
        case Axis.HOURS | Axis.NUMBERS:
            return [_number(x) for x in xs]


def _instant(x: float) -> str | None:
    """An instant in UTC to the second; None beyond the calendar."""
    try:
        at = datetime.fromtimestamp(round(x), UTC)
    except (ValueError, OverflowError, OSError):
        return None
    return at.isoformat().replace("+00:00", "Z")


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
