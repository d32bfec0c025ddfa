"""What an enclosure lacks in the days before a shed: a humid hide, or damp enough air."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from datetime import date

from warmside.api import (
    About,
    Ask,
    Basis,
    Book,
    Finding,
    Level,
    Mark,
    Source,
    Unit,
    format_quantity,
)
from warmside.plugins.habitat.described.choice import no_humid_hide
from warmside.plugins.habitat.described.enclosure import Enclosure
from warmside.plugins.habitat.logs.probes import Measure
from warmside.plugins.habitat.reading.dampness import percent_of_late
from warmside.plugins.habitat.reading.describing import described
from warmside.plugins.habitat.reading.kept_up import opaque
from warmside.plugins.habitat.reading.loggers import probes, used
from warmside.plugins.habitat.reading.wanted import wanted

CUSTOM = Source("keepers' custom: warmth, cover and water without a trade", Mark.COMMON_PRACTICE)
NEAR_DAYS = 7.0
UNSURE_PERCENT = 5.0
"""A hygrometer of a keeper is off by so much (common practice, no source)."""
DAMPEN = "damp moss in a closed hide, a larger bowl; air that is wet for days makes ill"


def no_humid_hide_ahead(
    ask: Ask, found: Enclosure, enclosure: int, animals: Collection[int], on: date
) -> Iterator[Finding]:
    """Of each animal that sheds soon in a described enclosure without a humid hide."""
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
        elif _sheds_soon(ask, animal, on):
            words = f"{label} may shed soon and has no humid hide"
            basis = Basis("the set-up as described and the days to its shed", CUSTOM)
            yield Finding("habitat.humid", Level.NOTE, words, basis, about)


def too_dry(ask: Ask, on: date, about: About | None) -> Iterator[Finding]:
    """Of each animal that sheds soon while its air is drier than it should be.

    Who is opaque is known by its record; whether one sheds soon is asked where a logger measures
    humidity.
    """
    inside = dict(_homes(ask.book, on, about))
    opaque_now = dict(opaque(ask, tuple(inside), on))
    hung = {p.logger_id for p in probes(ask.book) if p.measure is Measure.HUMIDITY}
    damp = {one.enclosure_id for one in used(ask.book, on) if one.id in hung}
    for animal, home in inside.items():
        is_opaque = animal in opaque_now
        if is_opaque or (home in damp and _sheds_soon(ask, animal, on)):
            yield from _dry(ask, animal, home, is_opaque, on)


def _homes(book: Book, on: date, about: About | None) -> Iterator[tuple[int, int]]:
    """(animal, enclosure) of all that live in one, or of those that are asked about."""
    if about is None:
        yield from ((a, home) for home, those in book.occupants(on).items() for a in those)
    elif about.enclosure_id is not None:
        yield from ((a, about.enclosure_id) for a in book.occupants(on).get(about.enclosure_id, ()))
    elif about.animal_id is not None:
        home = book.whereabouts(on)[about.animal_id].enclosure_id
        yield from [] if home is None else [(about.animal_id, home)]


def _dry(ask: Ask, animal: int, home: int, is_opaque: bool, on: date) -> Iterator[Finding]:
    span, percent = wanted(ask, home, on).humidity, percent_of_late(ask, home, on)
    if span is None or percent is None or percent >= span[0] - UNSURE_PERCENT:
        return
    found = described(ask.book, home, on)
    served = found is not None and not no_humid_hide(found)
    display, label = ask.book.home.display, ask.book.animals[animal].label
    was, least = (format_quantity(v, Unit.PERCENT, display) for v in (percent, span[0]))
    words = f"{label} {'is opaque' if is_opaque else 'may shed soon'} in dry air"
    yield Finding(
        "habitat.dry",
        Level.LOOK_SOON if is_opaque and not served else Level.NOTE,
        f"{words}: its dampest place measured had {was} of late and should have {least}: {DAMPEN}",
        Basis(f"readings of the last days, {UNSURE_PERCENT:g} % left to the hygrometer", CUSTOM),
        About(animal, home),
    )


def _sheds_soon(ask: Ask, animal: int, on: date) -> bool:
    told = ask.answers("days to slough", About(animal), on)
    return bool(told) and told[0].estimate.low <= NEAR_DAYS
