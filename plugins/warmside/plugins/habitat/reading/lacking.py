"""What is missing in a described enclosure that is lived in; of others nothing is said."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from datetime import date

from warmside.api import About, Ask, Basis, Finding, Level, Mark, Source
from warmside.plugins.habitat.described.choice import gaps, no_humid_hide
from warmside.plugins.habitat.described.enclosure import Enclosure
from warmside.plugins.habitat.reading.describing import all_descriptions, described
from warmside.plugins.habitat.reading.kept_up import opaque

CUSTOM = Source("keepers' custom: warmth, cover and water without a trade", Mark.COMMON_PRACTICE)
NEAR_DAYS = 7.0


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
            yield from _shed_ahead(ask, found, enclosure, animals, on)


def _meant(about: About | None, enclosure: int, animals: Collection[int]) -> bool:
    return about is None or about.enclosure_id == enclosure or about.animal_id in animals


def _gaps(found: Enclosure, enclosure: int) -> Iterator[Finding]:
    for gap in gaps(found):
        level = Level.LOOK_SOON if gap.danger or gap.code in ("light", "hide") else Level.NOTE
        basis = Basis("the set-up as described", CUSTOM)
        yield Finding(f"habitat.{gap.code}", level, gap.words, basis, About(enclosure_id=enclosure))


def _shed_ahead(
    ask: Ask, found: Enclosure, enclosure: int, animals: Collection[int], on: date
) -> Iterator[Finding]:
    if not no_humid_hide(found):
        return
    opaque_now = dict(opaque(ask, tuple(animals), on))
    for animal in animals:
        label = ask.book.animals[animal].label
        about = About(animal, enclosure)
        if animal in opaque_now:
            words = f"{label} is opaque and has no humid hide: give it damp moss in a closed hide"
            basis = Basis(f"opaque since {opaque_now[animal]}; the set-up as described", CUSTOM)
            yield Finding("habitat.humid", Level.LOOK_SOON, words, basis, about)
            continue
        told = ask.answers("days to slough", About(animal), on)
        if told and told[0].estimate.low <= NEAR_DAYS:
            words = f"{label} may shed soon and has no humid hide"
            basis = Basis("the set-up as described and the days to its shed", CUSTOM)
            yield Finding("habitat.humid", Level.NOTE, words, basis, about)
