"""What is missing in a described enclosure that is lived in; of others nothing is said."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from datetime import date

from warmside.api import About, Ask, Basis, Finding, Level, Mark, Source
from warmside.plugins.habitat.described.choice import gaps
from warmside.plugins.habitat.described.enclosure import Enclosure
from warmside.plugins.habitat.reading.before_shed import no_humid_hide_ahead
from warmside.plugins.habitat.reading.describing import all_descriptions, described

CUSTOM = Source("keepers' custom: warmth, cover and water without a trade", Mark.COMMON_PRACTICE)


def lacking(ask: Ask, on: date, about: About | None) -> Iterator[Finding]:
    """The gaps of each described enclosure with animals in it."""
    told = {enclosure for enclosure, _, _ in all_descriptions(ask.book)}
    if not told:
        return
    for enclosure, animals in ask.book.occupants(on).items():
        if enclosure not in told or not _meant(about, enclosure, animals):
            continue
        found = described(ask.book, enclosure, on)
        if found is not None:
            yield from _gaps(found, enclosure)
            yield from no_humid_hide_ahead(ask, found, enclosure, animals, on)


def _meant(about: About | None, enclosure: int, animals: Collection[int]) -> bool:
    return about is None or about.enclosure_id == enclosure or about.animal_id in animals


def _gaps(found: Enclosure, enclosure: int) -> Iterator[Finding]:
    for gap in gaps(found):
        level = Level.LOOK_SOON if gap.danger or gap.code in ("light", "hide") else Level.NOTE
        basis = Basis("the set-up as described", CUSTOM)
        yield Finding(f"habitat.{gap.code}", level, gap.words, basis, About(enclosure_id=enclosure))
