"""Body condition of an animal: its scaled mass index among its species, and a family's curve."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from warmside.api import (
    Animal,
    Answer,
    BadInput,
    Basis,
    Cell,
    Column,
    Fact,
    Kind,
    Part,
    Table,
    Tone,
    Unit,
    Words,
)
from warmside.plugins.weight.condition.condition import (
    SMI_SOURCE,
    WARNING,
    Taken,
    family_mass,
    scaled_mass_index,
)
from warmside.plugins.weight.condition.families import family_of

COLUMNS = (
    Column("day", "measured", Kind.DATE),
    Column("snout_vent", "nose to vent", Unit.LENGTH),
    Column("mass", "mass", Unit.MASS),
    Column("index", "scaled mass index", Unit.MASS),
)
NO_LENGTH = "no length to the vent with a weight within a week of it; measure and weigh it"


def condition_shown(
    pairs: dict[int, tuple[Taken, ...]], animal: Animal, on: date, family: str | None
) -> Answer:
    """The index of each length and mass of the animal, within all of its species on record."""
    parts = (*_index(pairs, animal), *_by_family(pairs[animal.id], animal, family))
    return Answer(f"Condition of {animal.label}, as of {on}", tuple(parts))


def _index(pairs: dict[int, tuple[Taken, ...]], animal: Animal) -> Iterator[Part]:
    mine = pairs[animal.id]
    pooled = [t.pair for one in pairs.values() for t in one]
    try:
        found = scaled_mass_index(pooled)
    except BadInput as problem:
        yield _table(mine, [None] * len(mine))
        yield Words(f"no scaled mass index: {problem}", Tone.CAUTION)
        return
    of = dict(zip((p.events for p in pooled), found.index_g, strict=True))
    events = tuple(e for p in pooled for e in p.events)
    rule = f"mass at {found.l0_mm:.0f} mm, slope {found.slope:.2f}, r {found.r:.2f}"
    basis = Basis(rule, SMI_SOURCE, events)
    among = sorted(found.index_g)
    yield Fact("pairs", "lengths with a mass, all of its species", len(pooled), Unit.COUNT, basis)
    yield Fact("lowest_index", "lowest index among them", among[0], Unit.MASS)
    yield Fact("highest_index", "highest index among them", among[-1], Unit.MASS)
    yield _table(mine, [of[t.pair.events] for t in mine])


def _table(mine: Sequence[Taken], index: Sequence[float | None]) -> Table:
    rows: list[tuple[Cell, ...]] = []
    for taken, value in zip(mine, index, strict=True):
        rows.append((taken.day, taken.pair.length_mm, taken.pair.mass_g, value))
    return Table("measured", COLUMNS, tuple(rows), empty=NO_LENGTH)


def _by_family(mine: Sequence[Taken], animal: Animal, family: str | None) -> Iterator[Part]:
    name = family or family_of(animal.species.scientific, animal.species.group)
    if name is None or not mine:
        return
    title = f"{name} of that length"
    yield Fact("family_mass", title, family_mass(name, mine[-1].pair.length_mm), Unit.MASS)
    yield Words(WARNING, Tone.CAUTION)
