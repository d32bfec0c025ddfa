"""The life stage of an animal of the record, the same for all who ask."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date

from msgspec.structs import replace

from warmside.core.asking.own_values import CORE
from warmside.core.asking.valued import anything_narrow
from warmside.core.record.book import Book
from warmside.core.record.entities import Animal
from warmside.core.record.species.figures import FORM_OF_GROUP, StageLimits, species_figures
from warmside.core.record.species.life_stage import UNKNOWN, Life, Weight
from warmside.core.record.species.staged import Staged, staged
from warmside.core.record.whereabouts import Custody
from warmside.core.values.about import About
from warmside.core.values.estimates import Valued

SEXES = ("female", "male")
ValueOf = Callable[[str, str, About], Valued]
"""The value of a plugin's setting for a subject."""


def stage_of(book: Book, value: ValueOf, animal: Animal, on: date) -> Staged:
    """The stage on a day; one query for the newest weighings of all animals, whoever asks."""
    figures = species_figures(animal.species.scientific)
    life = Life(
        species=animal.species.scientific,
        form=figures.form if figures else FORM_OF_GROUP.get(animal.species.group),
        limits=_limits(book, value, animal, figures.stages if figures else {}),
        age=_age(book, animal, on),
        weight=_weight(book, animal, on),
        display=book.home.display,
    )
    return staged(life)


def _limits(
    book: Book, value: ValueOf, animal: Animal, shipped: Mapping[str, StageLimits]
) -> tuple[tuple[str, StageLimits], ...]:
    """Those of its sex, or of both where they differ; the keeper's own values come first."""
    sexes = (animal.sex,) if animal.sex in SEXES else SEXES
    found = {sex: _own(book, value, animal, shipped.get(sex, UNKNOWN)) for sex in sexes}
    known = {sex: one for sex, one in found.items() if one.adult_g or one.adult_days}
    return tuple(known.items())[: 1 if len(set(known.values())) == 1 else None]


def _own(book: Book, value: ValueOf, animal: Animal, limits: StageLimits) -> StageLimits:
    if not anything_narrow(book, CORE.name):
        return limits
    mass = value(CORE.name, "adult_mass", About(animal.id))
    if mass.value:
        before = limits.subadult_g and min(limits.subadult_g, mass.value)
        limits = replace(
            limits, adult_g=mass.value, subadult_g=before, mass_source=mass.basis.source
        )
    age = value(CORE.name, "adult_age", About(animal.id))
    if age.value:
        limits = replace(limits, adult_days=age.value, age_source=age.basis.source)
    return limits


def _age(book: Book, animal: Animal, on: date) -> tuple[float, float | None]:
    """The least and the greatest age in days; at least as old as it has been in its place."""
    if animal.hatched is not None:
        least, greatest = animal.hatched.age_days(on)
        return float(max(least, 0)), float(max(greatest, 0))
    where = book.whereabouts(on)[animal.id]
    since = on if where.custody is Custody.NEVER_HERE else where.since
    return float(max((on - since).days, 0)), None


def _weight(book: Book, animal: Animal, on: date) -> Weight | None:
    last = book.latest("weighed", on=on)["weighed"].get(animal.id)
    if last is None:
        return None
    return Weight(float(last.data["mass_g"]), (on - last.day).days, last.id)
