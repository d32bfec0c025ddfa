"""A reference built from the keeper's own weighings of a species, or from a pooled file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from warmside.api import BadInput, Book, Mark, Source
from warmside.plugins.weight.lms_fit import LmsFit, fit_lms
from warmside.plugins.weight.pooled_file import PooledWeighing, parse_pooled
from warmside.plugins.weight.reading import whole
from warmside.plugins.weight.reference_table import Reference
from warmside.plugins.weight.stored import Ranges

SEXES = {"any": ("any",), "male": ("male",), "female": ("female",), "each": ("female", "male")}
OWN_LICENCE = "keeper's own, not for others"


@dataclass(frozen=True, slots=True)
class Built:
    """A fitted reference, the ranges of its centiles by sex and line, and what it rests on."""

    reference: Reference
    ranges: Mapping[tuple[str, str], Ranges]
    made_from: str


@dataclass(frozen=True, slots=True)
class Pool:
    """Weighings to fit; how many were in doubt, and how many animals had no sure hatching day."""

    weighings: tuple[PooledWeighing, ...]
    in_doubt: int = 0
    no_age: int = 0


def built(
    book: Book, species: str, sex: str, pooled: str | None, source: str, licence: str
) -> Built:
    """The fit for the asked sexes; `pooled` is the text of a pooled file, else the own record.

    BadInput says how many weighings, animals and ages are missing.
    """
    if sex not in SEXES:
        raise BadInput(f"sex {sex!r} cannot be fitted; give male, female, any or each")
    pool = own_pool(book, species) if pooled is None else Pool(parse_pooled(pooled))
    fits = {(one, ""): _fitted(pool.weighings, one) for one in SEXES[sex]}
    default = "own weighings" if pooled is None else "pooled weighings"
    reference = Reference(
        species,
        Source(source or default, Mark.KEEPERS_OWN),
        licence or OWN_LICENCE,
        {key: fit.curve for key, fit in fits.items()},
    )
    ranges = {key: _ranges(fit) for key, fit in fits.items()}
    return Built(reference, ranges, "; ".join(_told(fits, pool)))


def own_pool(book: Book, species: str) -> Pool:
    """The keeper's weighings of a species, meals taken off, without those in doubt."""
    found: list[PooledWeighing] = []
    in_doubt = no_age = 0
    for animal in (a for a in book.animals.values() if a.species.scientific == species):
        weights = whole(book, animal.id, book.today)
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


def _fitted(pool: Sequence[PooledWeighing], sex: str) -> LmsFit:
    mine = [w for w in pool if sex in ("any", w.sex)]
    try:
        return fit_lms(
            [w.age_days for w in mine], [w.mass_g for w in mine], [w.animal for w in mine]
        )
    except BadInput as problem:
        raise BadInput(str(problem) if sex == "any" else f"{sex}: {problem}") from None


def _ranges(fit: LmsFit) -> Ranges:
    return {line.centile: tuple(zip(line.low_g, line.high_g, strict=True)) for line in fit.lines}


def _told(fits: Mapping[tuple[str, str], LmsFit], pool: Pool) -> Iterator[str]:
    for (sex, _), fit in fits.items():
        yield f"{sex}: {fit.weighings} weighings of {fit.animals} animals, penalised LMS fit"
    if pool.in_doubt:
        yield f"{pool.in_doubt} weighings in doubt or before hatching left out"
    if pool.no_age:
        yield f"{pool.no_age} animals without a sure date of hatching left out"
