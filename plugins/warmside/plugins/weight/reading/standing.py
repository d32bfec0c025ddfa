"""Where animals' weights stand on a day, from the record and the references."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from warmside.api import About, Animal, Ask, Basis, Estimate, Unit
from warmside.plugins.weight.course.body import Body
from warmside.plugins.weight.course.standing import Standing
from warmside.plugins.weight.course.weights import Weights
from warmside.plugins.weight.reading.references import held
from warmside.plugins.weight.reading.weights import limits_of, recent, series, weights_for, whole


def standing(ask: Ask, animal: Animal, on: date) -> Standing:
    """All weighings of one animal, as of a day."""
    return _standing(ask, whole(ask, animal.id, on), on)


def standing_now(ask: Ask, animal_id: int, on: date) -> Standing:
    """As `standing`, by the weighings of the last year where those are read already."""
    return _standing(ask, weights_for(ask, animal_id, on), on)


def standings(ask: Ask, animals: Iterable[int], on: date) -> list[Standing]:
    """As `standing_now`, of those animals that were ever weighed."""
    found = (standing_now(ask, a, on) for a in animals)
    return [one for one in found if len(one.weights.sound)]


def recently_weighed(ask: Ask, on: date, about: About | None = None) -> list[Standing]:
    """The animals here that were weighed in the last year, or that animal alone."""
    return [_standing(ask, w, on) for w in recent(ask, on, about).values()]


def _standing(ask: Ask, weights: Weights, on: date) -> Standing:
    reference = held(ask.book, weights.animal)
    id = weights.animal.id
    return Standing(
        weights,
        reference,
        limits_of(ask),
        on,
        lambda: series(ask, on),
        lambda: _body(ask, id, on),
        lambda: ask.book.whereabouts_of(id, on).custody.is_gone,
        lambda: _adults(ask, weights.animal),
    )


def _body(ask: Ask, animal_id: int, on: date) -> Body:
    """The last score by eye up to a day, and the mass that the keeper wants."""
    wanted = float(ask.setting("core", "target_mass", About(animal_id)) or 0.0) or None
    last = ask.book.latest("condition", on=on)["condition"].get(animal_id)
    if last is None:
        return Body(wanted_g=wanted)
    return Body(last.data["score"], float(last.day.toordinal()), last.id, wanted)


def _adults(ask: Ask, animal: Animal) -> Estimate | None:
    """The span that grown animals of its species usually weigh, of its sex where that is known."""
    figures = ask.figures(animal.species)
    spans = figures.adult_g if figures else {}
    mine = [spans[animal.sex]] if animal.sex in spans else list(spans.values())
    if not mine:
        return None
    of = f"{animal.sex}s" if animal.sex in spans else "either sex"
    basis = Basis(f"usual span of grown ones, {of}; for orientation", mine[0].source)
    low, high = min(s.low for s in mine), max(s.high for s in mine)
    return Estimate(None, low, high, Unit.MASS, basis)
