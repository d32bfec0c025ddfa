"""How far a winter rest is."""

from __future__ import annotations

from datetime import date

from msgspec import Struct

from warmside.plugins.feeding.condition.season import Season
from warmside.plugins.feeding.meals.records import Weighing
from warmside.plugins.feeding.resting.period import Rest, lost_percent


class Course(Struct, frozen=True):
    """A rest and how far it is: since when it is cooled, its mass then and now, last looked at."""

    animal_id: int
    rest: Rest
    season: Season | None
    cooled: date | None
    first: Weighing | None
    last: Weighing | None
    looked: date | None

    @property
    def lost_percent(self) -> float | None:
        """The loss since it began; None where a weighing is missing."""
        if self.first is None or self.last is None or self.first == self.last:
            return None
        return lost_percent(self.first.mass_g, self.last.mass_g)
