"""How an animal's mass went over a year, for a stranger's eye."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from msgspec import Struct

from warmside.core.record.entities import Event


class Weighing(Struct, frozen=True):
    """A day and the mass of that day in grams."""

    day: date
    mass_g: float


class Course(Struct, frozen=True):
    """The last weighing and the heaviest of the span looked at."""

    last: Weighing
    heaviest: Weighing

    @property
    def loss_percent(self) -> float:
        """What the last is below the heaviest, in percent of the heaviest."""
        return 100.0 * (1 - self.last.mass_g / self.heaviest.mass_g)


def course(events: Sequence[Event]) -> Course | None:
    """From events of the kind `weighed`, oldest first; None without any."""
    weighed = [Weighing(event.day, event.data["mass_g"]) for event in events]
    if not weighed:
        return None
    return Course(weighed[-1], max(weighed, key=lambda w: (w.mass_g, w.day)))
