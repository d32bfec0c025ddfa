"""Findings and the report's section about signs and readings."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import About, Ask, Finding, Section, hookimpl
from warmside.plugins.signs.telling import about_animals, section


@hookimpl
def warmside_findings(ask: Ask, on: date, about: About | None) -> Iterator[Finding]:
    """Signs that stand, notes that name one, readings outside limits, a wasted body."""
    yield from about_animals(ask, on, about)


@hookimpl
def warmside_report_sections(ask: Ask, about: About, on: date) -> Iterator[Section]:
    """The signs on record of an animal."""
    if about.animal_id is not None:
        yield from section(ask, about.animal_id, on)
