"""How far an animal has grown up and how it looks: life stage, limits of its sex, condition."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from msgspec.structs import replace

from warmside.api import About, Ask, Event
from warmside.plugins.feeding.care.diets import Stage
from warmside.plugins.feeding.care.species import Species
from warmside.plugins.feeding.care.stages import only, possible
from warmside.plugins.feeding.planning.body import Body

CONDITION = "condition"
# A score by eye tells of the body for so long; common practice, no source.
SCORE_DAYS = 180


def stage_of(ask: Ask, animal_id: int, on: date) -> Stage | None:
    """The life stage by age, sex and weight; None where several are possible."""
    return only(possible(ask.stage(animal_id, on)))


def of_its_sex(species: Species, ask: Ask, animal_id: int, on: date) -> Species:
    """The species with the masses from which one of its sex counts as each stage."""
    limits = ask.stage(animal_id, on).life.limits
    starts = {(one.juvenile_g, one.subadult_g, one.adult_g) for _, one in limits}
    if len(starts) != 1:
        return species
    (juvenile, subadult, adult) = starts.pop()
    if juvenile is None or subadult is None or adult is None:
        return species
    return replace(species, from_g=(juvenile, subadult, adult))


def body_of(ask: Ask, animal_id: int, on: date, last: Mapping[str, Event]) -> Body:
    """Its newest score by eye, the keeper's target, and what adults of its kind weigh."""
    animal = ask.book.animals[animal_id]
    target = float(ask.setting("core", "target_mass", About(animal_id)) or 0.0)
    figures = ask.figures(animal.species)
    spans = figures.adult_g if figures else {}
    mine = [spans[animal.sex]] if animal.sex in spans else list(spans.values())
    usual = (min(s.low for s in mine), max(s.high for s in mine)) if mine else None
    return Body(_score(last.get(CONDITION), on), target or None, usual)


def _score(event: Event | None, on: date) -> int | None:
    if event is None or (on - event.day).days > SCORE_DAYS:
        return None
    score = event.data.get("score")
    return int(score) if score is not None else None
