"""ANSI styles of the terminal face; colour only adds, the words stand without it."""

from __future__ import annotations

from enum import StrEnum

from warmside.faces.look import Look
from warmside.faces.terminal.widths import hanging


class Ink(StrEnum):
    """SGR parameters after ECMA-48."""

    NONE = ""
    BOLD = "1"
    DIM = "2"
    ITALIC = "3"
    CAUTION = "1;33"
    HINT = "36"


def paint(text: str, ink: Ink, colour: bool) -> str:
    """The text in this style, or as it is."""
    return f"\x1b[{ink}m{text}\x1b[0m" if colour and ink and text else text


def field_lines(title: str, value: str, ink: Ink, look: Look) -> list[str]:
    """`title: value` on lines of its own, the value in this style."""
    label = f"{title}: "
    lines = []
    for line in hanging(label + value, look.width):
        plain, styled = (label, line[len(label) :]) if line.startswith(label) else ("", line)
        lines.append(plain + paint(styled, ink, look.colour))
    return lines
