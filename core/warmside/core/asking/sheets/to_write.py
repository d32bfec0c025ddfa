"""Room on a sheet to write by hand."""

from __future__ import annotations

from warmside.core.answers.drawings import Drawing, Label, Shape, Stroke

WIDE_MM, ROW_MM, BELOW_MM = 168.0, 8.0, 1.5
THIN_PT, SMALL_PT = 0.5, 8.0
DASHES = 76


def lines_to_write(key: str, *headings: str, wide_mm: float = WIDE_MM) -> Drawing:
    """A line to write on behind each heading, which may be empty."""
    drawn: list[Shape] = []
    for number, heading in enumerate(headings, 1):
        base = number * ROW_MM - BELOW_MM
        start = _breadth(heading)
        if heading:
            drawn.append(Label((0, base - 0.6), heading, SMALL_PT))
        drawn.append(Stroke((start, base), (wide_mm, base), THIN_PT))
    text = tuple(_typed(heading) for heading in headings)
    height = ROW_MM * len(headings)
    lines = {"headings": list(headings)}
    return Drawing(key, "", wide_mm, height, "mm", tuple(drawn), text, lines)


def _breadth(heading: str) -> float:
    """A little more than the heading takes, in millimetres: 0.6 of the letters' size each."""
    return len(heading) * SMALL_PT * 0.6 * 25.4 / 72 + 2 if heading else 0.0


def _typed(heading: str) -> str:
    room = DASHES - len(heading)
    return f"{heading} {'_' * room}" if heading else "_" * DASHES
