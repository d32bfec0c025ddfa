"""How one animal is fed where the keeper knows better than the row of its species."""

from __future__ import annotations

from msgspec import Struct

from warmside.api import BadInput, Unit, parse_quantity
from warmside.plugins.feeding.care.species import Species, with_own
from warmside.plugins.feeding.energy.rates import Span
from warmside.plugins.feeding.prey.classes import prey_classes, prey_named


class Own(Struct, frozen=True):
    """The keeper's values for one animal; None and empty where the species' hold.

    Days between meals, meal in percent of body mass, kinds or classes of prey, hours on the warm
    side.
    """

    interval_days: Span | None = None
    meal_percent: Span | None = None
    prey: tuple[str, ...] = ()
    warm_hours: float | None = None

    def on(self, species: Species) -> Species:
        """The species as this animal is fed; BadInput for values that cannot be."""
        return with_own(
            species,
            interval_days=self.interval_days,
            meal_percent=self.meal_percent,
            prey=self.prey or None,
        )

    @property
    def words(self) -> tuple[str, ...]:
        """The values in words."""
        said = []
        if self.interval_days:
            said.append(f"every {spelled(self.interval_days)} days")
        if self.meal_percent:
            said.append(f"{spelled(self.meal_percent)} % of body mass")
        if self.prey:
            said.append(f"prey: {', '.join(self.prey)}")
        if self.warm_hours is not None:
            said.append(f"{self.warm_hours:g} hours a day on the warm side")
        return tuple(said)


def spelled(span: Span) -> str:
    """`10 to 14`, or `10` where both ends are the same."""
    low, high = span
    return f"{low:g}" if low == high else f"{low:g} to {high:g}"


def parse_span(text: str, unit: Unit, what: str) -> Span:
    """A range as typed, `10-14` or `10 to 14`, or one value; BadInput for anything else."""
    parts = text.replace("–", "-").replace(" to ", "-").split("-")
    if len(parts) > 2:
        raise BadInput(f"{what} {text!r} is no range; write it as 10-14")
    ends = sorted(parse_quantity(p.strip(), unit, what=what) for p in parts)
    return ends[0], ends[-1]


def parse_prey(text: str) -> tuple[str, ...]:
    """Kinds of prey (mouse) or classes (adult mouse), separated by commas."""
    kinds = {p.kind for p in prey_classes().values()}
    words = [w.strip().lower() for w in text.split(",") if w.strip()]
    if not words:
        raise BadInput(f"no prey is named; one or more of: {', '.join(sorted(kinds))}")
    return tuple(dict.fromkeys(w if w in kinds else prey_named(w).code for w in words))


def parse_hours(text: str) -> float:
    """Hours a day on the warm side, 0 to 24."""
    hours = parse_quantity(text, Unit.HOURS, bare=True, what="warm-hours")
    if not 0 <= hours <= 24:
        raise BadInput(f"{hours:g} warm hours a day; give 0 to 24")
    return hours
