"""A reference built from pooled weighings of a species."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct

from warmside.api import BadInput, Source, counted
from warmside.plugins.weight.lms.fit import LmsFit, fit_lms
from warmside.plugins.weight.lms.held import Ranges
from warmside.plugins.weight.lms.pooled_file import PooledWeighing
from warmside.plugins.weight.lms.reference_table import Reference

SEXES = {"any": ("any",), "male": ("male",), "female": ("female",), "each": ("female", "male")}
OWN_LICENCE = "keeper's own, not for others"


class Built(Struct, frozen=True):
    """A fitted reference, the ranges of its centiles by sex and line, and what it rests on."""

    reference: Reference
    ranges: Mapping[tuple[str, str], Ranges]
    made_from: str


class Pool(Struct, frozen=True):
    """Weighings to fit; how many were in doubt, and how many animals had no sure hatching day."""

    weighings: tuple[PooledWeighing, ...]
    in_doubt: int = 0
    no_age: int = 0


def built(pool: Pool, species: str, sex: str, source: Source, licence: str) -> Built:
    """The fit for the asked sexes.

    BadInput says how many weighings, animals and ages are missing.
    """
    if sex not in SEXES:
        raise BadInput(f"sex {sex!r} cannot be fitted; give male, female, any or each")
    fits = {(one, ""): _fitted(pool.weighings, one) for one in SEXES[sex]}
    reference = Reference(
        species,
        source,
        licence or OWN_LICENCE,
        {key: fit.curve for key, fit in fits.items()},
    )
    ranges = {key: _ranges(fit) for key, fit in fits.items()}
    return Built(reference, ranges, "; ".join(_told(fits, pool)))


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
        weighings, animals = counted(fit.weighings, "weighing"), counted(fit.animals, "animal")
        yield f"{sex}: {weighings} of {animals}, penalised LMS fit"
    if pool.in_doubt:
        yield f"{counted(pool.in_doubt, 'weighing')} in doubt or before hatching left out"
    if pool.no_age:
        yield f"{counted(pool.no_age, 'animal')} without a sure date of hatching left out"
