"""When something is due again, from the interval and the last time it was done."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta


@dataclass(frozen=True, slots=True)
class Rhythm:
    """Every `days` an event of `kind`, for one subject, or for all where both are None."""

    kind: str
    days: int
    animal_id: int | None = None
    enclosure_id: int | None = None

    @property
    def for_all(self) -> bool:
        """Whether it holds for every subject without a rhythm of its own."""
        return self.animal_id is None and self.enclosure_id is None


def due_day(days: int, last: date | None, since: date) -> date:
    """The day on which it is due: `days` after the last time, or at once where it never was."""
    return since if last is None else last + timedelta(days=days)


def applying(rhythms: Iterable[Rhythm], kind: str, subjects: Iterable[int]) -> dict[int, Rhythm]:
    """The rhythm of a kind that applies to each subject: its own before the one for all."""
    mine = [r for r in rhythms if r.kind == kind]
    general = next((r for r in mine if r.for_all), None)
    own = {r.animal_id or r.enclosure_id: r for r in mine if not r.for_all}
    found = {s: own.get(s, general) for s in subjects}
    return {s: r for s, r in found.items() if r is not None}
