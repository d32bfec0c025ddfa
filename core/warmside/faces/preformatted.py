"""Lines whose columns must stay: shown as they are, or in panels where the width is short."""

from __future__ import annotations

from collections.abc import Sequence

from warmside.faces.terminal.visible import visible
from warmside.faces.terminal.widths import cut, text_width


def pre_lines(text: str) -> list[str]:
    """The lines of a preformatted text, safe to show, without blanks at their ends."""
    return [line.rstrip() for line in visible(text).split("\n")]


def panels(lines: Sequence[str], width: int) -> list[str]:
    """The lines within `width` columns, what is wider going on below in a panel of its own.

    Nothing is left out and what stood below each other still does; a panel that goes on to the
    right is followed by a line that says so.
    """
    shown: list[str] = []
    rest = list(lines)
    while True:
        pieces = [cut(line, width) for line in rest]
        shown += [piece.rstrip() for piece, _ in pieces]
        rest = [more for _, more in pieces]
        if not any(map(text_width, rest)):
            return shown
        shown += ["", "(to the right of it)"[:width].rstrip()]
