"""Widths of text in terminal columns, and breaking, filling and shortening by them.

Widths follow Unicode's East Asian Width (UAX #11): wide and full-width take two columns,
combining marks and joiners none; an emoji selector makes its sign two wide.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator

_JOINERS = "\u200c\u200d"
_EMOJI_SELECTOR = "\ufe0f"


def text_width(text: str) -> int:
    """Terminal columns that a line of safe text takes."""
    return len(text) if text.isascii() else sum(_width(sign) for sign in _signs(text))


def wrap(text: str, width: int) -> list[str]:
    """Lines of at most `width` columns (two at least); line feeds break, longer words are cut."""
    lines: list[str] = []
    for paragraph in text.split("\n"):
        lines += _wrap_paragraph(paragraph, max(width, 2))
    return lines


def hanging(text: str, width: int, indent: int = 2) -> list[str]:
    """Wrapped lines within `width`, all but the first set in by `indent`."""
    first, *rest = wrap(text, width - indent)
    return [first, *(" " * indent + line for line in rest)]


def pad(text: str, width: int, *, right: bool = False) -> str:
    """The text filled with blanks to `width`; `right` puts it at the right end."""
    blanks = " " * (width - text_width(text))
    return blanks + text if right else text + blanks


def clip(text: str, width: int) -> str:
    """The text if it fits, else its beginning and an ellipsis."""
    if text_width(text) <= width:
        return text
    return (_cut(text, width - 1)[0] if width > 1 else "") + "…"


def _signs(text: str) -> Iterator[str]:
    """Characters with the combining marks and joiners that follow them."""
    sign = ""
    for char in text:
        if sign and not _takes_room(char):
            sign += char
            continue
        if sign:
            yield sign
        sign = char
    if sign:
        yield sign


def _takes_room(char: str) -> bool:
    return char not in _JOINERS and unicodedata.category(char) not in ("Mn", "Me")


def _width(sign: str) -> int:
    if _EMOJI_SELECTOR in sign or unicodedata.east_asian_width(sign[0]) in "WF":
        return 2
    return 1 if _takes_room(sign[0]) else 0


def _wrap_paragraph(text: str, width: int) -> list[str]:
    lines, line, used = [], "", 0
    for word in (w for w in text.split(" ") if w):
        room = text_width(word)
        if line and used + 1 + room <= width:
            line, used = f"{line} {word}", used + 1 + room
            continue
        if line:
            lines.append(line)
        while room > width:
            piece, word = _cut(word, width)
            lines.append(piece)
            room = text_width(word)
        line, used = word, room
    return [*lines, line] if line or not lines else lines


def _cut(text: str, width: int) -> tuple[str, str]:
    """The longest beginning that fits, and the rest."""
    used, length = 0, 0
    for sign in _signs(text):
        used += _width(sign)
        if used > width:
            break
        length += len(sign)
    return text[:length], text[length:]
