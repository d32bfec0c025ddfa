"""What to take out of the freezer the evening before a round."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct

from warmside.plugins.feeding.planning.fit import Fit
from warmside.plugins.feeding.prey.classes import Prey, prey_classes


class ThawLine(Struct, frozen=True):
    """So many items of one class, for so many animals."""

    prey: Prey
    count: int
    animals: int

    @property
    def words(self) -> str:
        """The line as a keeper would say it."""
        return f"{self.count} × {self.prey.name}"


def thaw_list(meals: Iterable[Fit]) -> tuple[ThawLine, ...]:
    """One list for the whole round, from the first fit of each animal; insects are not frozen."""
    counts, animals = dict[str, int](), dict[str, int]()
    for fit in meals:
        if fit.prey.frozen:
            counts[fit.prey.code] = counts.get(fit.prey.code, 0) + fit.count
            animals[fit.prey.code] = animals.get(fit.prey.code, 0) + 1
    known = prey_classes()
    return tuple(ThawLine(known[c], counts[c], animals[c]) for c in known if c in counts)
