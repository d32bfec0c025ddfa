"""What stands on a label: its kind, its code and its lines, before any layout."""

from __future__ import annotations

import hashlib
import json
from enum import StrEnum
from typing import TYPE_CHECKING

from msgspec import Struct, to_builtins

if TYPE_CHECKING:
    pass


class LabelKind(StrEnum):
    """The kinds of label."""

    ENCLOSURE = "enclosure"
    ANIMAL = "animal"
    DOOR = "door"
    HAZARD = "hazard"
    SITTER = "sitter"

    @property
    def is_sign(self) -> bool:
        """Whether it warns in large words; its code comes last."""
        return self in (LabelKind.DOOR, LabelKind.HAZARD)


class Style(StrEnum):
    """How a line is set; `BLANK` ends in a rule to write on."""

    NAME = "name"
    LATIN = "latin"
    PLAIN = "plain"
    CAUTION = "caution"
    LARGE = "large"
    BLANK = "blank"


class LabelText(Struct, frozen=True):
    """One line; `key` is the word by which the keeper picks it.

    A `needed` line gives way for want of room only after the others.
    """

    text: str
    style: Style
    key: str
    needed: bool = False


class Label(Struct, frozen=True):
    """A label. `payload` is what its QR says, made from the same code; empty for no QR."""

    kind: LabelKind
    code_text: str
    payload: str
    lines: tuple[LabelText, ...]


LINE_KEYS: dict[LabelKind, tuple[str, ...]] = {
    LabelKind.ENCLOSURE: ("names", "latin", "species", "genes", "hatched", "room"),
    LabelKind.ANIMAL: (
        *("name", "latin", "species", "sex", "hatched", "genes", "origin", "feeding"),
        *("contact", "vet"),
    ),
    LabelKind.DOOR: ("sign", "order", "since", "end", "tools", "hands", "names", "latin"),
    LabelKind.HAZARD: (
        *("sign", "what", "first", "emergency", "keeper", "law", "licence", "names", "latin"),
    ),
    LabelKind.SITTER: ("names", "latin", "meal", "misting", "donot", "contact"),
}


_GROUPS = {"feeding": 1, "meal": 1, "misting": 1, "donot": 2, "contact": 3, "vet": 3}


def group_of(key: str) -> int:
    """Where a line belongs on a card or strip: who it is, food, what not to do, whom to call."""
    return _GROUPS.get(key, 0)


def lines_of(*lines: LabelText) -> tuple[LabelText, ...]:
    """The lines that say something."""
    return tuple(line for line in lines if line.text.strip())


def fill_in(title: str, text: str, key: str) -> LabelText:
    """A titled line, or a rule to write on where there is no text yet."""
    if text.strip():
        return LabelText(f"{title} {text}", Style.PLAIN, key, needed=True)
    return LabelText(title, Style.BLANK, key)


def fingerprint(label: Label) -> str:
    """A short digest of all that a label says; equal digests mean equal labels."""
    said = json.dumps(to_builtins(label), sort_keys=True)  # ASCII, so lone surrogates do no harm
    return hashlib.sha256(said.encode("ascii")).hexdigest()[:24]
