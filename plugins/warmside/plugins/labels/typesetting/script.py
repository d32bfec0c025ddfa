"""Text that runs from right to left in the order in which it stands on paper, and joined Arabic.

By libraries, imported only for text that needs them: python-bidi for the order (Unicode Standard
Annex #9) and arabic-reshaper for the shapes, which the faces hold as characters of their own.
python-bidi leaves rules L3 (marks stand after their character) and L4 (brackets are mirrored) to
its caller; explicit directions are taken out before (see `wording`).
"""

from __future__ import annotations

import unicodedata
from functools import cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from arabic_reshaper import ArabicReshaper

_PROBE = "\U000e0100"  # a mark beyond what faces hold (LAST_DRAWABLE), so never in a text to draw
_MATHEMATICAL = "Sm"  # mirrored too, but the faces lack many of the mirrored signs


def is_plain(text: str) -> bool:
    """Whether nothing in a text runs from right to left."""
    return not any(
        c >= "\u0590" and unicodedata.bidirectional(c) in ("R", "AL", "AN") for c in text
    )


def visual_order(text: str, whole: str = "") -> str:
    """The text as it stands on paper from left to right, brackets mirrored where they must.

    `whole` is the text of which it is one row, and which gives the direction of all its rows.

    Behind each character that may be mirrored or bears marks goes a further mark. It takes the
    direction of its character (rule W1), so that in the ordered line it comes after one that runs
    from left to right, and before one that runs from right to left.
    """
    whole = whole or text
    if is_plain(whole):
        return text
    from bidi import get_base_level, get_display

    mirrored = _mirrored()
    parts = (part + _PROBE if _is_probed(part, mirrored) else part for part in _clusters(text))
    direction = "R" if get_base_level(whole) else "L"
    line = str(get_display("".join(parts), base_dir=direction))
    return "".join(_settled(line, mirrored))


@cache
def _mirrored() -> dict[str, str]:
    from bidi.mirror import MIRRORED

    return {
        c: other
        for c, other in MIRRORED.items()
        if c in "<>" or unicodedata.category(c) != _MATHEMATICAL
    }


def _is_mark(character: str) -> bool:
    return unicodedata.bidirectional(character) == "NSM"


def _clusters(text: str) -> list[str]:
    """Characters, each with the marks on it."""
    found: list[str] = []
    for character in text:
        if found and _is_mark(character):
            found[-1] += character
        else:
            found.append(character)
    return found


def _is_probed(cluster: str, mirrored: dict[str, str]) -> bool:
    return len(cluster) > 1 or cluster in mirrored or _is_mark(cluster)


def _settled(line: str, mirrored: dict[str, str]) -> Iterator[str]:
    """The ordered line without its probes: L3 and L4 are done where one comes first."""
    start = 0
    while start < len(line):
        backwards = line[start] == _PROBE
        end = start + 1
        while end < len(line) and _is_mark(line[end]) and line[end] != _PROBE:
            end += 1
        if backwards:  # probe, marks from the last to the first, character
            base = line[end : end + 1]
            yield mirrored.get(base, base) + line[start + 1 : end][::-1]
            start = end + 1
        else:
            yield line[start:end]
            start = end + _is_probed(line[start:end], mirrored)


def join_arabic(text: str) -> str:
    """The text with Arabic letters replaced by their joined shapes; its order stays."""
    if not any("\u0600" <= c <= "\u06ff" for c in text):
        return text
    return str(_reshaper().reshape(text))


@cache
def _reshaper() -> ArabicReshaper:
    """Joins letters and the ligatures of lam and alef, and keeps the signs for vowels."""
    from arabic_reshaper import ArabicReshaper

    return ArabicReshaper({"delete_harakat": False, "ARABIC LIGATURE ALLAH": False})
