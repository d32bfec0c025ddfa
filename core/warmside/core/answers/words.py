"""Paragraphs, and how they are meant."""

from __future__ import annotations

from enum import StrEnum

from msgspec import Struct


class Tone(StrEnum):
    """How words are meant; the faces say it in words too, never by colour alone."""

    PLAIN = "plain"
    CAUTION = "caution"
    HINT = "hint"


class Words(Struct, frozen=True):
    """A paragraph; with `pre` its lines and columns stay as they are, in letters of one width."""

    text: str
    tone: Tone = Tone.PLAIN
    pre: bool = False


def paragraphs(*texts: str, tone: Tone = Tone.PLAIN) -> tuple[Words, ...]:
    """Paragraphs of one tone."""
    return tuple(Words(p, tone) for p in texts)
