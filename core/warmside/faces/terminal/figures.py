"""Charts, timelines, drawings and pictures as text."""

from __future__ import annotations

from typing import assert_never

from warmside.core.answers.parts import Chart, Drawing, Strip, Timeline
from warmside.faces.look import Look
from warmside.faces.preformatted import panels, pre_lines
from warmside.faces.terminal.ink import Ink, paint
from warmside.faces.terminal.terminal_chart import render_chart
from warmside.faces.terminal.terminal_strip import render_strip
from warmside.faces.terminal.terminal_timeline import render_timeline
from warmside.faces.terminal.visible import visible
from warmside.faces.terminal.widths import wrap


def render_figure(part: Chart | Timeline | Drawing | Strip, look: Look) -> list[str]:
    """The lines of a part that is no words and no numbers in rows."""
    match part:
        case Chart():
            return render_chart(part, look)
        case Timeline():
            return render_timeline(part, look)
        case Drawing():
            return _drawing(part, look)
        case Strip():
            return render_strip(part, look)
        case _:
            assert_never(part)


def _drawing(drawing: Drawing, look: Look) -> list[str]:
    title = wrap(visible(drawing.title), look.width) if drawing.title else []
    lines = pre_lines("\n".join(drawing.text))
    return [*(paint(t, Ink.BOLD, look.colour) for t in title), *panels(lines, look.width)]
