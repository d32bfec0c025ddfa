"""Sections that plugins give for a sheet, sorted into the places that the core fills, too."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from datetime import date

from warmside.core.answers.parts import Part, Section
from warmside.core.asking.ask import Ask
from warmside.core.plugins.sheets import Sheet
from warmside.core.record.entities import Animal
from warmside.core.values.about import About


def given_for(
    ask: Ask, sheet: Sheet, first: date, last: date, animals: Collection[Animal] | None
) -> list[Section]:
    """What plugins add, about all; about these alone where some are named, each thing said once."""
    if animals is None:
        return ask.sheet_sections(sheet, first, last)
    found: dict[tuple[int, str], dict[Part, None]] = {}
    for animal in animals:
        for section in ask.sheet_sections(sheet, first, last, About(animal.id)):
            said = found.setdefault((section.order, section.title), {})
            said |= dict.fromkeys(section.parts)
    return [Section(title, tuple(found[order, title]), order) for order, title in sorted(found)]


def parts_at(given: Sequence[Section], order: int) -> tuple[Part, ...]:
    """All parts of the sections of that place, to be said in the core's own section."""
    return tuple(part for section in given if section.order == order for part in section.parts)


def beside(given: Sequence[Section], *orders: int) -> list[Section]:
    """The sections of all other places."""
    return [section for section in given if section.order not in orders]
