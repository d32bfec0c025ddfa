"""The few records that the feeding calculation rests on, as plain values."""

from __future__ import annotations

from datetime import date

from msgspec import Struct

# The share of a meal that was eaten, where it is not the whole.
EATEN = {"refused": 0.0, "part taken": 0.5}


class Weighing(Struct, frozen=True):
    """A mass in g on a day; `event` is the id of its record."""

    day: date
    mass_g: float
    event: int = 0


class Offer(Struct, frozen=True, array_like=True):
    """Food offered: `count` items of a prey class, of which `eaten` were taken.

    What `came_back` was regurgitated: taken, and not eaten in the end.

    `each_g` is the mass of one item where it was weighed; `dust` is the powder on insects.
    """

    day: date
    prey: str
    count: int
    eaten: float
    each_g: float | None = None
    dust: str | None = None
    event: int = 0
    came_back: bool = False

    @property
    def refused(self) -> bool:
        """Nothing of it was eaten."""
        return self.eaten <= 0


def offer_of(
    day: date,
    item: str,
    count: int,
    mass_g: float | None,
    outcome: str,
    event: int = 0,
    dust: str | None = None,
) -> Offer:
    """An offer from what a feeding event holds; `mass_g` is of the whole meal.

    Of a meal taken in part half is reckoned as eaten. A regurgitated one was eaten first.
    """
    share = EATEN.get(outcome, 1.0)
    each = mass_g / count if mass_g else None
    return Offer(day, item, count, count * share, each, dust, event)


def last_meal(offers: tuple[Offer, ...]) -> Offer | None:
    """The newest offer of which something was eaten and stayed down."""
    return _newest(offers, eaten=True)


def last_refusal(offers: tuple[Offer, ...]) -> Offer | None:
    """The newest offer that was refused."""
    return _newest(offers, eaten=False)


def _newest(offers: tuple[Offer, ...], *, eaten: bool) -> Offer | None:
    found = None
    for offer in offers:  # a plain loop: the round asks this some thousand times
        if (offer.eaten > 0) is not eaten or offer.came_back:
            continue
        if found is None or offer.day > found.day:
            found = offer
    return found
