"""The words below a symbol, in lines that have room there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

MM = 25.4 / 72
WIDE, WIDE_BOLD = 0.62, 0.70
"""How wide a letter is on the whole, of its size, in the font that pages are set in."""
NAME_LINES = 2


def below(words: Sequence[str], room: float, size: float) -> list[tuple[str, bool]]:
    """Lines no wider than `room` millimetres, and whether each is in bold.

    The name has two at most, then comes the rest, one each. A day without room is said by its year.
    """
    name, *rest = words
    bold, plain = (max(3, int(room / (size * MM * wide))) for wide in (WIDE_BOLD, WIDE))
    lines = [(line, True) for line in _name(name, bold)]
    for text in filter(None, rest):
        short = text[:4] if len(text) > plain and text[:4].isdecimal() else text
        lines.append((_cut(short, plain), False))
    return lines


def _name(name: str, letters: int) -> Iterator[str]:
    line = ""
    lines = []
    for word in name.split():
        if line and len(line) + 1 + len(word) > letters:
            lines.append(line)
            line = word
        else:
            line = f"{line} {word}".strip()
    lines.append(line)
    if len(lines) > NAME_LINES:
        lines = [lines[0], " ".join(lines[1:])]
    return (_cut(line, letters) for line in lines)


def _cut(text: str, letters: int) -> str:
    return text if len(text) <= letters else f"{text[: letters - 1]}…"
