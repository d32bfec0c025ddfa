"""Arabic letters in their joined shapes, from the compatibility forms of the Unicode data.

Source: The Unicode Standard, chapter 9 (cursive joining) and UnicodeData.txt (published). The faces
hold these forms as characters of their own, so no shaping engine is needed.
"""

from __future__ import annotations

import unicodedata
from functools import cache

_FORMS = (*range(0xFB50, 0xFDD0), *range(0xFE80, 0xFEFD))
_LAM = "\u0644"
_ALEFS = "\u0622\u0623\u0625\u0627"  # the only letters whose ligature with lam is obligatory
_TATWEEL = "\u0640"  # joins on both sides and has one shape


@cache
def _shapes() -> dict[tuple[str, str], str]:
    """(form, plain letters) to the character that shows them; form as in UnicodeData.txt."""
    shapes: dict[tuple[str, str], str] = {}
    for point in _FORMS:
        form, *letters = unicodedata.decomposition(chr(point)).split() or [""]
        if letters and form in {"<initial>", "<medial>", "<final>", "<isolated>"}:
            shapes.setdefault((form, "".join(chr(int(x, 16)) for x in letters)), chr(point))
    return shapes


def _transparent(character: str) -> bool:
    return unicodedata.category(character) == "Mn"


def _joins_next(letters: str) -> bool:
    return letters == _TATWEEL or ("<initial>", letters) in _shapes()


def _joins_previous(letters: str) -> bool:
    return letters == _TATWEEL or ("<final>", letters) in _shapes()


def _units(text: str) -> list[str]:
    """The letters of a text; lam followed by an alef that has a ligature with it is one unit."""
    units: list[str] = []
    for character in text:
        if units and units[-1] == _LAM and character in _ALEFS:
            units[-1] += character
        else:
            units.append(character)
    return units


def _shape(unit: str, before: str, after: str) -> str:
    joined_before = _joins_next(before) and _joins_previous(unit)
    joined_after = _joins_next(unit) and _joins_previous(after)
    form = ("<isolated>", "<initial>", "<final>", "<medial>")[2 * joined_before + joined_after]
    return _shapes().get((form, unit), unit)


def join_arabic(text: str) -> str:
    """The text with Arabic letters replaced by their joined shapes; its order stays."""
    if not any("\u0600" <= c <= "\u06ff" for c in text):
        return text
    units = _units(text)
    shaped = list(units)
    solid = [n for n, unit in enumerate(units) if not _transparent(unit[0])]
    letters = ["", *(units[n] for n in solid), ""]
    for n, before, here, after in zip(solid, letters, letters[1:], letters[2:], strict=False):
        shaped[n] = _shape(here, before, after)
    return "".join(shaped)
