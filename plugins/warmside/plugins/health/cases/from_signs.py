"""Cases that begin with a sign that was seen, and end when it is gone before anybody treated it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from msgspec import Struct

from warmside.plugins.health.cases.course_of_case import Case

MILD = ("tick", "bad smell", "always at the heat", "not itself")
"""Signs to watch: a case begins from them at a vet's or by command (common practice, no source)."""
SEEN = " seen"
TOLD_DAYS = 60
"""So long after its last sighting a sign counts as what a vet was seen for (common practice)."""


class SignSaid(Struct, frozen=True):
    """What was recorded of a sign on a day."""

    event: int
    day: date
    sign: str
    seen: bool
    where: str = ""

    @property
    def words(self) -> str:
        """`burnt skin (belly) seen`."""
        return f"{self.what}{SEEN}"

    @property
    def what(self) -> str:
        """`burnt skin (belly)`."""
        return f"{self.sign} ({self.where})" if self.where else self.sign


def standing(said: Iterable[SignSaid], on: date) -> list[SignSaid]:
    """The newest sighting of each sign that is not said to be gone, of the last weeks."""
    newest: dict[str, SignSaid] = {}
    for one in said:
        newest[one.sign] = one
    return [s for s in newest.values() if s.seen and (on - s.day).days <= TOLD_DAYS]


def begins_case(new: SignSaid, is_open: bool) -> bool:
    """Whether a sign begins a case: one that is not mild, while none is open."""
    return new.seen and not is_open and new.sign not in MILD


def is_only_signs(case: Case) -> bool:
    """Whether nothing but signs is written of a case."""
    return all(e.what.endswith(SEEN) for e in case.entries)


def is_over(case: Case, said: Sequence[SignSaid], visits: Sequence[date], on: date) -> bool:
    """Whether the signs of a case are gone and no vet has seen it: nothing is left to follow."""
    if not is_only_signs(case) or any(day >= case.begun for day in visits):
        return False
    return not [s for s in standing(said, on) if s.sign not in MILD]
