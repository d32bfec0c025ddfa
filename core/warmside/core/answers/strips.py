"""Pictures in an answer: each with what is said of it, side by side where a face can show them."""

from __future__ import annotations

from datetime import date

from msgspec import Struct

__all__ = ("Shot", "Strip")


class Shot(Struct, frozen=True):
    """A picture or paper: its number, the file that it is kept in, and the words below it.

    A face that can show pictures finds the file by `digest` and `kind` (jpg, png, pdf); sizes are
    pixels, None for a paper.
    """

    number: int
    day: date
    digest: str
    kind: str
    size_bytes: int
    width: int | None
    height: int | None
    words: tuple[str, ...] = ()

    @property
    def called(self) -> str:
        """`picture 3`, or `paper 3`."""
        return f"{'paper' if self.kind == 'pdf' else 'picture'} {self.number}"


class Strip(Struct, frozen=True):
    """Pictures in their order; `key` names the list in JSON.

    `small` is for many that only tell who is who.
    """

    key: str
    title: str
    shots: tuple[Shot, ...]
    small: bool = False
