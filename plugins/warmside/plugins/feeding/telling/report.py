"""The sections of a report: of an animal in full, of an enclosure for those that live in it."""

from __future__ import annotations

from collections.abc import Iterator

from warmside.api import About, Section
from warmside.plugins.feeding.care.cautions import digest
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.telling import balance, plan, plans


def sections(reading: Reading, about: About) -> Iterator[Section]:
    """The plan and the energy balance, as their commands give them."""
    if about.animal_id is not None:
        yield Section("Feeding", plan.parts(reading, about.animal_id, brief=True), 300)
        here = reading.where(about.animal_id).custody.is_here
        if here and (balanced := balance.parts(reading, about.animal_id)):
            yield Section("Energy balance", balanced, 310)
    elif ids := reading.meant(about):
        table, species = plans.all_parts(reading, ids)
        minded = plan.briefly(digest(species), "warmside feeding plan --all")
        yield Section("Feeding", (table, *minded), 300)
