"""The keeper's own weighings of a species, pooled for a reference."""

from __future__ import annotations

from warmside.api import Ask
from warmside.plugins.weight.lms.building import Pool
from warmside.plugins.weight.lms.pooled_file import PooledWeighing
from warmside.plugins.weight.reading.weights import whole


def own_pool(ask: Ask, species: str) -> Pool:
    """The weighings, meals taken off, without those in doubt."""
    found: list[PooledWeighing] = []
    in_doubt = no_age = 0
    for animal in (a for a in ask.book.animals.values() if a.species.scientific == species):
        weights = whole(ask, animal.id, ask.book.today)
        those = weights.course.weighings
        if weights.hatched is None:
            no_age += bool(len(those))
            continue
        in_doubt += len(weights.all) - len(those)
        found += [
            PooledWeighing(animal.code, animal.sex, max(day - weights.hatched, 0.0), mass)
            for day, mass in zip(those.days, those.masses_g, strict=True)
        ]
    return Pool(tuple(found), in_doubt, no_age)
