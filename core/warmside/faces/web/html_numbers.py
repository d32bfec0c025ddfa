"""What a drawing shows, as words and numbers: for who cannot see it, and for who wants to know."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import assert_never

from warmside.core.answers.parts import Axis, Bars, Chart, Drawing, Line, Timeline, TimelineRow
from warmside.core.values.quantities import format_quantity
from warmside.faces.drawn.clock_ticks import local_words
from warmside.faces.drawn.plot import usable
from warmside.faces.look import Look
from warmside.faces.preformatted import pre_lines
from warmside.faces.web.markup import Markup, element


def as_numbers(part: Chart | Timeline | Drawing, look: Look) -> Markup:
    """The part in words, folded away below its drawing."""
    match part:
        case Chart():
            said = element("ul", [element("li", line) for line in _chart(part, look)])
        case Timeline():
            said = element("ul", [element("li", _row(row)) for row in part.rows])
        case Drawing():
            said = preformatted("\n".join(part.text))
        case _:
            assert_never(part)
    return element("details", element("summary", "in words and numbers"), said)


def preformatted(text: str) -> Markup:
    """The lines as they are; what scrolls sideways can be reached by a keyboard."""
    lines = "\n".join(pre_lines(text))
    return element("pre", lines, tabindex=0, role="group", aria_label="lines")


def _chart(chart: Chart, look: Look) -> Iterator[str]:
    """A line for each series, all its values behind their x."""
    for line in chart.lines:
        yield _series(line, chart, look)
    for bars in chart.bars:
        yield _series(bars, chart, look)
    for band in chart.bands:
        trios = zip(band.x, band.low, band.high, strict=False)
        ends = [
            f"{_x(x, chart, look)} {format_quantity(low, chart.y_unit, look.display)}"
            f" to {format_quantity(high, chart.y_unit, look.display)}"
            for x, low, high in trios
            if usable(x, chart)
        ]
        yield f"{band.title}: {'; '.join(ends)}"
    for marks in chart.marks:
        yield f"{marks.title}: {'; '.join(_x(x, chart, look) for x in marks.x if usable(x, chart))}"


def _series(series: Line | Bars, chart: Chart, look: Look) -> str:
    values = [
        f"{_x(x, chart, look)} {format_quantity(y, chart.y_unit, look.display)}"
        for x, y in zip(series.x, series.y, strict=False)
        if y is not None and usable(x, chart)
    ]
    return f"{series.title}: {'; '.join(values)}"


def _x(x: float, chart: Chart, look: Look) -> str:
    match chart.axis:
        case Axis.DAYS:
            return date.fromordinal(int(x)).isoformat()
        case Axis.INSTANTS:
            return local_words(x, look.zone)
        case Axis.HOURS:
            minutes = round(60 * x)
            return f"{minutes // 60:02}:{minutes % 60:02}"
        case Axis.NUMBERS:
            return f"{x:g}"


def _row(row: TimelineRow) -> str:
    spans = [f"{s.start} to {s.end} {s.label}" for s in row.spans]
    moments = [f"{m.day} {m.label}" for m in row.moments]
    return f"{row.title}: {'; '.join([*spans, *moments])}"
