"""Text made fit to draw: what cannot or must not stand on a label is taken out and named."""

from __future__ import annotations

import re
import unicodedata

from msgspec import Struct

from warmside.plugins.labels.typesetting.fonts import Face, metrics
from warmside.plugins.labels.typesetting.script import join_arabic

LONGEST_TEXT = 1000  # characters; no label holds more, and layout time stays bounded
REPLACEMENT = "\ufffd"
ELLIPSIS = "…"
# ECMA-48: a control sequence, an operating system command, or a two-character escape
_ESCAPES = re.compile(r"(?:\x1b\[|\x9b)[0-?]*[ -/]*[@-~]|\x1b\][^\x07\x1b]*(?:\x07|\x1b\\)?|\x1b.?")
_SPACES = re.compile(r"\s+")
_DIRECTIONS = frozenset("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


class Drawable(Struct, frozen=True):
    """A text of which every character can be drawn in `face`, in reading order, and what was lost.

    `lost` names characters without a glyph; `hidden` says that invisible ones were taken out.
    """

    text: str
    face: Face
    lost: tuple[str, ...] = ()
    hidden: bool = False
    cut: bool = False


def drawable(text: str, face: Face) -> Drawable:
    """The text as it can be drawn in a face, or in the regular one where only that holds it."""
    cut = len(text) > LONGEST_TEXT
    text = text[: LONGEST_TEXT - 1] + ELLIPSIS if cut else text
    if text.isascii() and text.isprintable():
        return Drawable(_SPACES.sub(" ", text).strip(), face, cut=cut)
    visible, hidden = _visible(text)
    visible = join_arabic(unicodedata.normalize("NFC", visible))
    chosen = _face(visible, face)
    shown, lost = _held(visible, chosen)
    return Drawable(_SPACES.sub(" ", shown).strip(), chosen, lost, hidden, cut)


def is_safe(text: str) -> bool:
    """Whether a text has only visible characters and spaces, so that print and scan agree."""
    return all(unicodedata.category(c)[0] not in "C" for c in text)


def _visible(text: str) -> tuple[str, bool]:
    """Escapes, controls and direction marks out; lone surrogates stay to be replaced."""
    kept: list[str] = []
    plain = _ESCAPES.sub("", text)
    hidden = plain != text
    for character in plain:
        category = unicodedata.category(character)
        if character in "\t\r\n" or category[0] == "Z":
            kept.append(" ")
        elif category == "Cc" or character in _DIRECTIONS:
            hidden = True
        elif category != "Cf" and not 0xFE00 <= ord(character) <= 0xFE0F:
            kept.append(character)
    return "".join(kept), hidden


def _face(text: str, face: Face) -> Face:
    """The regular face when it holds a character which the wanted one lacks."""
    wanted, regular = metrics(face), metrics(Face.REGULAR)
    missing = any(not wanted.holds(c) and regular.holds(c) for c in text)
    return Face.REGULAR if missing else face


def _held(text: str, face: Face) -> tuple[str, tuple[str, ...]]:
    known = metrics(face)
    lost = dict.fromkeys(c for c in text if c != REPLACEMENT and not known.holds(c))
    shown = "".join(REPLACEMENT if c in lost else c for c in text)
    return shown, tuple(_named(c) for c in lost)


def _named(character: str) -> str:
    name = unicodedata.name(character, "no character")
    return f"U+{ord(character):04X} {name.lower()}"
