"""Life stages for plans that are made without a collection: an animal whose mass alone is known."""

from __future__ import annotations

from datetime import date

from warmside.core.record.species.figures import Form, StageLimits
from warmside.core.record.species.life_stage import Life, Weight
from warmside.core.record.species.staged import Staged, staged
from warmside.core.values.display import Display
from warmside.plugins.feeding.care.species import Species
from warmside.plugins.feeding.meals.records import Weighing


def staged_by_mass(
    species: Species, weighing: Weighing | None, on: date, age: float = 0.0
) -> Staged:
    """The stage of an animal of at least an age in days, by the masses of the feeding row."""
    juvenile, subadult, adult = species.from_g or (None, None, None)
    limits = StageLimits(juvenile, subadult, adult, None, None, None)
    days = (on - weighing.day).days if weighing else 0
    weight = Weight(weighing.mass_g, days) if weighing else None
    known = (("either", limits),) if species.has_stages else ()
    form = Form(species.group) if species.group in list(Form) else None
    return staged(Life(species.latin, form, known, (age, None), weight, Display.METRIC))
