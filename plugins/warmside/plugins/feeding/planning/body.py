"""What the condition of the body means for its meals: a fat animal gets no larger ones."""

from __future__ import annotations

import math

from msgspec import Struct

from warmside.api import Basis, Estimate, Mark, Source, Unit
from warmside.plugins.feeding.care.diets import Stage

FAT, THIN = 4, 2
# Weights move by so much; a target is passed beyond it. The interval is made so much longer.
SLACK, LONGER = 1.05, 1.5
HELD = Source(
    "a fat animal is fed less often, never starved: usual among keepers", Mark.COMMON_PRACTICE
)


class Body(Struct, frozen=True):
    """Condition and size: a score of 1 to 5 by eye, the keeper's target in g, the usual adult mass.

    None is what is not known.
    """

    score: int | None = None
    target_g: float | None = None
    usual_g: tuple[float, float] | None = None

    def is_over(self, mass_g: float) -> bool:
        """Fat by its score, or heavier than the keeper wants it."""
        over = self.target_g is not None and mass_g > SLACK * self.target_g
        return over or (self.score is not None and self.score >= FAT)

    def fed_as_g(self, mass_g: float) -> float:
        """The mass by which meals are sized: of a fat one no more than its target or usual top."""
        if not self.is_over(mass_g):
            return mass_g
        return min(mass_g, self.target_g or (self.usual_g[1] if self.usual_g else math.inf))

    def words(self, mass_g: float, grams: str, stage: Stage | None) -> tuple[str, ...]:
        """What is to be said of it; `grams` is the target or the usual span as shown."""
        if self.is_over(mass_g):
            by = f"condition {self.score} of 5" if self.score and self.score >= FAT else ""
            over = f"over its target of {grams}" if self.target_g else ""
            why = by or over
            return (f"{why}: no larger meals, and longer between them; lose slowly, with a vet",)
        if self.score is not None and self.score <= THIN:
            return (f"condition {self.score} of 5: thin; a vet before it is fed more",)
        heavy = self.usual_g and stage is Stage.ADULT and mass_g > SLACK * self.usual_g[1]
        if heavy and self.score is None:
            return (f"heavier than usual for its kind ({grams}): look at its condition, score it",)
        return ()


def held(interval: Estimate) -> Estimate:
    """The interval of a fat animal: from its long end on."""
    low, high = interval.high, math.floor(LONGER * interval.high)
    rule = f"{interval.basis.rule}, held to every {low:g} to {high:g} days for its condition"
    return Estimate(None, low, float(high), Unit.DAYS, Basis(rule, HELD, interval.basis.events))
