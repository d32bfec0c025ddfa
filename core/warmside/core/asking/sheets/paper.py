"""On which paper a sheet is printed."""

from __future__ import annotations

from typing import Literal

from warmside.core.values.display import Display
from warmside.core.values.errors import BadInput
from warmside.core.values.hints import near_miss, quoted

Paper = Literal["a4", "letter"]
PAPERS: tuple[Paper, ...] = ("a4", "letter")
LETTER_PRESET = "us trade"
"""Where a collection shows its values so, Letter is the paper at hand (common practice)."""


def paper_named(typed: str | None, display: Display) -> Paper:
    """The paper that was typed, else the one that goes with the collection's units."""
    if typed is None:
        return "letter" if display.preset == LETTER_PRESET else "a4"
    for paper in PAPERS:
        if typed.casefold() == paper:
            return paper
    raise BadInput(
        f"there is no paper {quoted(typed)}{near_miss(typed, PAPERS)}; type a4 or letter"
    )
