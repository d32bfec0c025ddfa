"""Findings and the report's section about signs and readings."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import About, Ask, Estimate, Finding, Pair, Section, hookimpl
from warmside.plugins.signs.telling import about_animals, section, standing_signs


@hookimpl
def warmside_findings(ask: Ask, on: date, about: About | None) -> Iterator[Finding]:
    """Signs that stand, notes that name one, readings outside limits, a wasted body."""
    yield from about_animals(ask, on, about)


@hookimpl
def warmside_report_sections(ask: Ask, about: About, on: date) -> Iterator[Section]:
    """The signs on record of an animal."""
    if about.animal_id is not None:
        yield from section(ask, about.animal_id, on)


@hookimpl
def warmside_answer(ask: Ask, what: str, about: About | Pair, on: date) -> Iterator[Estimate]:
    """How many signs of an animal this plugin speaks of; nothing where it speaks of none."""
    if what == "standing signs" and isinstance(about, About) and about.animal_id is not None:
        yield from standing_signs(ask, about.animal_id, on)
