"""What was seen of a female's season since she last laid: the newest of each sign of it."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta
from enum import StrEnum

from msgspec import Struct

SEASON_DAYS = 400  # what is older belongs to another season, also of slow live-bearers


class Sign(StrEnum):
    """What can be seen of a season, in its usual order."""

    MATED = "mated"
    OVULATION = "ovulation"
    SHED = "shed"
    LAYING_SHED = "pre-lay shed"
    SUSPECTED = "suspected"
    CONFIRMED = "confirmed"
    LAYING = "laying begun"
    OVER = "over"
    LAID = "laid"


class Seen(Struct, frozen=True):
    """A sign on a day; `event` is the number of its record, `partner` of a mating."""

    sign: Sign
    day: date
    event: int = 0
    partner: int | None = None


ENDS = (Sign.LAID, Sign.OVER)


class Course(Struct, frozen=True):
    """The signs of one female, the oldest first, from after her last clutch on.

    `last_laid` is the clutch before, None where none is on record.
    """

    signs: tuple[Seen, ...] = ()
    last_laid: Seen | None = None

    def all(self, *wanted: Sign) -> tuple[Seen, ...]:
        """All of these signs, the oldest first."""
        return tuple(s for s in self.signs if s.sign in wanted)

    def newest(self, *wanted: Sign) -> Seen | None:
        """The newest of these signs."""
        return next(iter(reversed(self.all(*wanted))), None)

    def first(self, *wanted: Sign) -> Seen | None:
        """The oldest of these signs."""
        return next(iter(self.all(*wanted)), None)

    @property
    def carries(self) -> bool:
        """Whether she is known to carry eggs or young: confirmed, or shed for laying, or laying."""
        return self.newest(Sign.CONFIRMED, Sign.LAYING_SHED, Sign.LAYING) is not None

    @property
    def stage(self) -> str:
        """How far she is, in a few words."""
        order = (
            (Sign.LAYING, "laying"),
            (Sign.LAYING_SHED, "shed before laying"),
            (Sign.CONFIRMED, "gravid"),
            (Sign.OVULATION, "ovulated"),
            (Sign.SUSPECTED, "perhaps gravid"),
            (Sign.MATED, "mated"),
        )
        since = f"laid on {self.last_laid.day}" if self.last_laid else "nothing seen yet"
        return next((words for sign, words in order if self.newest(sign)), since)


def course_of(seen: Iterable[Seen], on: date, shed_from: int | None = None) -> Course:
    """The course up to a day; what ended a season ends all that was before it.

    `shed_from` is how many days after ovulation a shed is the one before laying at the earliest;
    None where the species has none.
    """
    known = sorted((s for s in seen if s.day <= on), key=_in_time)
    laid = [s for s in known if s.sign is Sign.LAID]
    ends = [n for n, s in enumerate(known) if s.sign in ENDS]
    since = on - timedelta(days=SEASON_DAYS)
    left = [s for s in known[ends[-1] + 1 if ends else 0 :] if s.day >= since]
    return Course(_with_laying_shed(left, shed_from), laid[-1] if laid else None)


def _with_laying_shed(seen: list[Seen], shed_from: int | None) -> tuple[Seen, ...]:
    """A shed well after ovulation, or once she is known to be gravid, is the one before laying.

    Of several the last: of two sheds the later one is nearer to the eggs. A shed that the keeper
    called so himself is kept as it is.
    """
    rest = [s for s in seen if s.sign is not Sign.SHED]
    since = _shed_since(rest, shed_from)
    if since is None or any(s.sign is Sign.LAYING_SHED for s in rest):
        return tuple(rest)
    sheds = [s for s in seen if s.sign is Sign.SHED and s.day >= since]
    rest += [Seen(Sign.LAYING_SHED, s.day, s.event) for s in sheds[-1:]]
    return tuple(sorted(rest, key=_in_time))


def _in_time(seen: Seen) -> tuple[date, bool, int]:
    """By day; what ends a season comes after what else was seen on its day."""
    return seen.day, seen.sign in ENDS, seen.event


def _shed_since(seen: Iterable[Seen], shed_from: int | None) -> date | None:
    """From which day on a shed is taken as the one before laying; None where none is."""
    if shed_from is None:
        return None
    days = {Sign.OVULATION: shed_from, Sign.CONFIRMED: 1}
    found = {s.sign: s.day + timedelta(days=days[s.sign]) for s in seen if s.sign in days}
    return found.get(Sign.OVULATION) or found.get(Sign.CONFIRMED)
