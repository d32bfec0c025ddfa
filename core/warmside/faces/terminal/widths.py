"""Widths of text in terminal columns, and breaking, filling and shortening by them.

The wcwidth package knows the columns of every sign. Importing it takes as long as all else that
`today` imports for its face (53 ms, of which its tables are most), so it is imported only for text
with signs outside of the scripts below, in which each sign takes one column.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

_ONE_COLUMN_EACH = re.compile(
    "[ -~\xa0-\xac\xae-\u02ff\u0370-\u0377\u0384-\u038a\u0391-\u03a1\u03a3-\u0482\u048a-\u052f"
    "\u2010-\u2027\u2030-\u205e\u2070\u2071\u2074-\u208e\u20a0-\u20c0\u2100-\u218b\u2190-\u22ff"
    "\u2500-\u25fc\u2640\u2642\u2800-\u28ff]*"
)

LONGEST_SIGN = 32  # characters that a sign of one column may have, with its marks


def text_width(text: str) -> int:
    """Terminal columns that a line of safe text takes."""
    if _ONE_COLUMN_EACH.fullmatch(text):
        return len(text)
    return sum(_width(sign) for sign in _signs(text))


def wrap(text: str, width: int) -> list[str]:
    """Lines of at most `width` columns (two at least); line feeds break.

    Words that are longer are cut, at a hyphen where there is one.
    """
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
    beginning = cut(text, width - 1)[0]
    return (beginning if text_width(beginning) < width else "") + "…"


def _signs(text: str) -> Iterator[str]:
    """What a reader sees as one sign each: a letter with its marks, a joined emoji."""
    if _ONE_COLUMN_EACH.fullmatch(text):
        return iter(text)
    from wcwidth import iter_graphemes

    return iter_graphemes(text)


def _width(sign: str) -> int:
    if _ONE_COLUMN_EACH.fullmatch(sign):
        return len(sign)
    from wcwidth import wcswidth

    return max(0, wcswidth(sign))


def _wrap_paragraph(text: str, width: int) -> list[str]:
    lines, line, used = [], "", 0
    for word in (w for w in text.split(" ") if w):
        room = text_width(word)
        if line and used + 1 + room <= width:
            line, used = f"{line} {word}", used + 1 + room
            continue
        if line:
            lines.append(line)
        start = 0
        while room > width:  # of a word without end, only what may fit is looked at
            piece = _beginning(word[start : start + LONGEST_SIGN * width], width)
            lines.append(piece)
            start, room = start + len(piece), room - text_width(piece)
        line, used = word[start:], room
    return [*lines, line] if line or not lines else lines


def _beginning(word: str, width: int) -> str:
    """What of a word that is too long stands on its line: up to a hyphen, where there is one."""
    piece, rest = cut(word, width)
    hyphen = piece.rfind("-") + 1
    return piece[:hyphen] if hyphen > 1 and rest else piece


def cut(text: str, width: int) -> tuple[str, str]:
    """The longest beginning that fits, one sign at least, and the rest."""
    if _ONE_COLUMN_EACH.fullmatch(text):
        return text[: max(width, 1)], text[max(width, 1) :]
    used, length = 0, 0
    for sign in _signs(text):
        used += _width(sign)
        if length and used > width:
            break
        length += len(sign)
    return text[:length], text[length:]
