"""How warm the zones of an enclosure must and may be, for whoever is inside."""

from __future__ import annotations

from msgspec import Struct

from warmside.plugins.habitat.gradient.targets import Wanted, target
from warmside.plugins.habitat.logs.probes import Measure


class Limits(Struct, frozen=True):
    """Degrees C: the coolest place above `hot`, the warmest place below `cold`; None not known.

    `wanted` says which zone is on which side, and what each warm one keeps by day; its least counts
    only if all inside are `warmed`, and a source of heat that can fail may be there (`heated`).
    """

    hot: float | None = None
    cold: float | None = None
    wanted: Wanted = Wanted()
    warmed: bool = True
    heated: bool = True

    def least(self, zone: str) -> float | None:
        """The least by day of a zone on the warm side; None of others and where it is not known.

        Where only the surface on which it basks has a target, its air is warmer than the cool side
        may be.
        """
        if not self.warmed or not self.heated or self.wanted.side(zone) != "warm":
            return None
        found = target(zone, Measure.AIR, self.wanted)
        if found and found.day:
            return found.day[0]
        return self.wanted.cool[1] if self.wanted.basks and self.wanted.cool else None

    def most(self, zone: str) -> float | None:
        """The most by day of a zone on the warm side, of its air or of what it basks on.

        A place to bask, by its name, has none: it is left when it is too hot.
        """
        if self.wanted.side(zone) != "warm" or zone.casefold().strip().startswith("bask"):
            return None
        found = target(zone, Measure.AIR, self.wanted) or target(zone, Measure.SURFACE, self.wanted)
        return found.day[1] if found and found.day else None
