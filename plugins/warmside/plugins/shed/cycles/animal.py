"""All that the plugin knows of one animal's sheds on a day."""

from __future__ import annotations

from datetime import date, timedelta

from msgspec import Struct

from warmside.plugins.shed.cycles.advice import Advice, after_sheds, on_stage
from warmside.plugins.shed.cycles.aftermath import Aftermath, Look, followed, outcomes
from warmside.plugins.shed.cycles.cycle import Doubt, History, Seen, read
from warmside.plugins.shed.cycles.now import Now, where

CHECK_DAYS = 14  # so long after a shed a first check is still asked for
DOUBT_DAYS = 90  # so long a doubt stands in the round; later only with the animal's sheds


class Rows(Struct, frozen=True):
    """What is on record of one animal: stages and sheds seen, how sheds went, what was done.

    `prepared` is when something was done for humidity.
    """

    animal_id: int
    code: str
    name: str
    eats_slough: bool = False
    seen: tuple[Seen, ...] = ()
    sheds: tuple[Aftermath, ...] = ()
    looks: tuple[Look, ...] = ()
    prepared: tuple[date, ...] = ()

    @property
    def label(self) -> str:
        """Name and code, as lists show an animal."""
        return f"{self.name} ({self.code})"


class AnimalSheds(Struct, frozen=True):
    """One animal's sheds as of a day."""

    rows: Rows
    on: date
    history: History
    now: Now
    sheds: tuple[Aftermath, ...]

    @property
    def last(self) -> Aftermath | None:
        """The last shed on record."""
        return self.sheds[-1] if self.sheds else None

    @property
    def between(self) -> bool:
        """Whether it is between two sheds, of which a slough would be found."""
        return self.now.stage is None and not self.rows.eats_slough

    @property
    def prepared(self) -> bool:
        """Whether something was done for humidity since the cycle began."""
        if self.now.since is None:
            return False
        began = self.history.cycles[-1].seen[0].day
        return any(began <= day <= self.on for day in self.rows.prepared)

    @property
    def late(self) -> bool:
        """Whether the shed is later than usual for the stage; a clear day is easily missed."""
        return self.now.shed is not None and self.now.shed.late(self.on)

    @property
    def new_doubts(self) -> tuple[Doubt, ...]:
        """Doubts of the last months."""
        first = self.on - timedelta(days=DOUBT_DAYS)
        return tuple(d for d in self.history.doubts if d.seen[-1].day >= first)

    @property
    def advice(self) -> tuple[Advice, ...]:
        """What to do now: about skin left on, the stage, or the last shed while it is fresh."""
        last = self.last
        found = _about_shed(self) if last and (last.still or self._fresh(last)) else ()
        if self.now.stage is None:
            return found
        return (*found, *on_stage(self.now.stage, self.late, self.rows.eats_slough))

    def _fresh(self, shed: Aftermath) -> bool:
        return self.now.stage is None and (self.on - shed.day).days <= CHECK_DAYS


def as_of(rows: Rows, on: date) -> AnimalSheds:
    """The animal's sheds with all that was on record up to and on that day."""
    history = read(rows.seen, on, rows.eats_slough)
    sheds = followed((s for s in rows.sheds if s.day <= on), (k for k in rows.looks if k.day <= on))
    return AnimalSheds(rows, on, history, where(history), sheds)


def stage_words(sheds: AnimalSheds) -> str:
    """The stage with its first day, or that the animal is between two sheds."""
    now = sheds.now
    if now.stage is not None:
        return f"{now.stage} since {now.since}"
    return "between two sheds" if sheds.sheds else "no shed on record yet"


def left_on_words(places: tuple[str, ...]) -> str:
    """`spectacle and tail tip`, `old skin` where the place was not named."""
    named = [p for p in places if p != "elsewhere"]
    rest = ["old skin elsewhere"] if named else ["old skin"]
    return " and ".join(named + (rest if len(named) < len(places) else []))


def _about_shed(sheds: AnimalSheds) -> tuple[Advice, ...]:
    return after_sheds(outcomes(sheds.sheds), sheds.rows.eats_slough)
