"""Which life stage an animal is in: from its age, its sex, its newest weighing and its species.

Whole answers only: where age, sex or mass leave more than one stage possible, none is named. The
limits come with the species; the ages below are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum

from msgspec import Struct

from warmside.core.record.species.figures import Form, StageLimits
from warmside.core.values.basis import Mark, Source
from warmside.core.values.display import Display


class LifeStage(StrEnum):
    """How far an animal has grown up, the youngest first."""

    HATCHLING = "hatchling"
    JUVENILE = "juvenile"
    SUBADULT = "subadult"
    ADULT = "adult"


ORDER = tuple(LifeStage)
USUAL_AGES = Source("usual ages of stages", Mark.COMMON_PRACTICE)
FRESH_DAYS = 180
"""So long a weighing says the stage; an older one only that it is that stage at least."""
HATCHLING_DAYS = {Form.SNAKE: 150.0, Form.LIZARD: 90.0, Form.TORTOISE: 365.0, Form.TURTLE: 365.0}
"""Until this age it may be a hatchling."""
SUBADULT_SHARE = 0.5
"""By age alone, a subadult from this share of the age of an adult."""
SURELY_YOUNG_DAYS = 30.0
"""A hatchling, whatever the species."""
SURELY_GROWN_DAYS = {
    Form.SNAKE: 1826.0,
    Form.LIZARD: 1826.0,
    Form.TORTOISE: 5479.0,
    Form.TURTLE: 4383.0,
}
"""An adult, whatever the species: 5, 5, 15 and 12 years."""
UNKNOWN = StageLimits(None, None, None, None, None, None)


class Weight(Struct, frozen=True):
    """A weighing: mass in g, how many days ago, and its event."""

    mass_g: float
    days_ago: int
    event: int | None = None

    @property
    def is_fresh(self) -> bool:
        """Whether it says the stage, and not only the least that it can be."""
        return self.days_ago <= FRESH_DAYS


class Life(Struct, frozen=True):
    """What a stage is judged by: limits of the sexes that it may be, and what is known of it.

    `limits` go by sex; none where the species has no figures. `age` is the least and the greatest
    age in days; the greatest is None where it has no bound. `display` is for the words.
    """

    species: str
    form: Form | None
    limits: tuple[tuple[str, StageLimits], ...]
    age: tuple[float, float | None]
    weight: Weight | None
    display: Display


def possible_stages(life: Life) -> tuple[LifeStage, ...]:
    """All stages that the animal may be in, the youngest first."""
    limits = [one for _, one in life.limits] or [UNKNOWN]
    found = {s for one in limits for s in stages_under(one, life)}
    return tuple(s for s in ORDER if s in found)


def stages_under(limits: StageLimits, life: Life) -> Iterable[LifeStage]:
    """All stages that it may be in, were these its limits."""
    least, greatest = life.age
    youngest = _at(limits, life, least, ORDER[0])
    oldest = _at(limits, life, greatest, ORDER[-1])
    return ORDER[ORDER.index(youngest) : ORDER.index(oldest) + 1]


def is_grown_by_age(limits: StageLimits, form: Form | None, age: float) -> bool:
    """Whether it is an adult by its age in days, whatever it weighs."""
    from_age = limits.adult_days or SURELY_GROWN_DAYS.get(form or Form.TORTOISE)
    return from_age is not None and age >= from_age


def stage_by_mass(limits: StageLimits, mass_g: float) -> LifeStage | None:
    """The stage by mass alone; None where the limits do not say."""
    starts = (limits.juvenile_g, limits.subadult_g, limits.adult_g)
    passed = [s for s, g in zip(ORDER[1:], starts, strict=True) if g and mass_g >= g]
    if passed:
        return passed[-1]
    return LifeStage.HATCHLING if limits.juvenile_g else None


def _at(limits: StageLimits, life: Life, age: float | None, otherwise: LifeStage) -> LifeStage:
    """The stage at an age (None: without bound); `otherwise` where nothing settles it."""
    if age is not None and is_grown_by_age(limits, life.form, age):
        return LifeStage.ADULT
    by_age = otherwise if age is None else _by_age(limits, life.form, age) or otherwise
    by_mass = stage_by_mass(limits, life.weight.mass_g) if life.weight else None
    if life.weight is None or by_mass is None:
        return by_age
    if not life.weight.is_fresh:
        return max(by_age, by_mass, key=ORDER.index)
    grown = age is not None and age >= HATCHLING_DAYS.get(life.form or Form.TORTOISE, 0.0)
    return LifeStage.JUVENILE if by_mass is LifeStage.HATCHLING and grown else by_mass


def _by_age(limits: StageLimits, form: Form | None, age: float) -> LifeStage | None:
    """The stage of one that is no adult yet."""
    if age < SURELY_YOUNG_DAYS and form is not None:
        return LifeStage.HATCHLING
    if limits.adult_days is None or form is None:
        return None
    if age < HATCHLING_DAYS[form]:
        return LifeStage.HATCHLING
    grown = age >= SUBADULT_SHARE * limits.adult_days
    return LifeStage.SUBADULT if grown else LifeStage.JUVENILE
