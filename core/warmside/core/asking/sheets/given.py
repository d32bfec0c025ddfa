"""Sections that plugins give for a sheet, sorted into the places that the core fills, too."""

from __future__ import annotations

from collections.abc import Sequence

from warmside.core.answers.parts import Part, Section


def parts_at(given: Sequence[Section], order: int) -> tuple[Part, ...]:
    """All parts of the sections of that place, to be said in the core's own section."""
    return tuple(part for section in given if section.order == order for part in section.parts)


def beside(given: Sequence[Section], *orders: int) -> list[Section]:
    """The sections of all other places."""
    return [section for section in given if section.order not in orders]
