"""Who lives in an enclosure, held against the rules of space that speak of each."""

from __future__ import annotations

from datetime import date

from warmside.api import Ask
from warmside.plugins.habitat.reading.bodies import body_of, vent_share
from warmside.plugins.habitat.reading.describing import described
from warmside.plugins.habitat.reading.wanted import inside
from warmside.plugins.habitat.space.growing import Body
from warmside.plugins.habitat.space.outgrowing import longest_met, outgrown
from warmside.plugins.habitat.space.rules import Box, Rule, held
from warmside.plugins.habitat.space.shipped import rules_for
from warmside.plugins.habitat.telling.outgrown import Resident, Ruled


def box_of(ask: Ask, enclosure_id: int, on: date) -> Box | None:
    """The inner size as described, else as on record; None where neither says all of it."""
    found = described(ask.book, enclosure_id, on)
    if found is not None:
        return Box(found.width, found.depth, found.height)
    where = ask.book.enclosures[enclosure_id]
    sizes = [mm for mm in (where.width_mm, where.depth_mm, where.height_mm) if mm is not None]
    return Box(*sizes) if len(sizes) == 3 else None


def residents(ask: Ask, enclosure_id: int, box: Box, on: date) -> list[Resident]:
    """Each animal inside with every rule; the number of animals is that really inside."""
    animals = inside(ask, enclosure_id, on)
    return [_resident(ask, animal, box, len(animals), on) for animal in animals]


def _resident(ask: Ask, animal_id: int, box: Box, animals: int, on: date) -> Resident:
    animal = ask.book.animals[animal_id]
    size = body_of(ask, animal_id, on)
    if size is None:
        return Resident(animal.code, None)
    rules = rules_for(animal.species.scientific, animal.species.group)
    vent = vent_share(ask, animal_id, on)
    told, unsaid = [], []
    for rule in rules:
        share = vent if rule.by_vent else 1.0
        if share is None:
            unsaid.append(rule.name)
        elif (one := _ruled(rule, box, size, share, animals)) is not None:
            told.append(one)
    return Resident(animal.code, size, tuple(told), tuple(unsaid))


def _ruled(rule: Rule, box: Box, size: Body, share: float, animals: int) -> Ruled | None:
    middle = sum(size.length) / 2
    now = held(rule, box, share * middle, animals)
    if now is None:
        return None
    longest = longest_met(rule, box, share, animals)
    return Ruled(now, outgrown(size, longest) if longest is not None else None)
