"""What an animal was offered and what stayed down, from its feeding events."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from datetime import date

from msgspec import Struct
from msgspec.structs import replace

from warmside.plugins.feeding.meals.records import Offer, offer_of
from warmside.plugins.feeding.prey.classes import known_prey

# Common practice, no source: a meal comes back within a few days, and before the next one.
COMES_BACK_DAYS = 4


class Served(Struct, frozen=True):
    """A feeding event: `mass_g` is of the whole meal, `event` its number."""

    day: date
    item: str
    count: int
    mass_g: float | None
    outcome: str
    event: int


class Meals(Struct, frozen=True):
    """The offers of one animal, oldest first, and the days on which it regurgitated."""

    offers: tuple[Offer, ...] = ()
    regurgitations: tuple[date, ...] = ()


def meals_of(served: Iterable[Served], dusted: Mapping[date, Sequence[str]]) -> Meals:
    """Offers and regurgitations from events, in any order.

    A regurgitation recorded within a few days of a meal of the same kind of food is about that
    meal, no meal of its own. `dusted` are the powders of a day.
    """
    offers, back = list[Offer](), list[date]()
    left = defaultdict(list, {day: list(powders) for day, powders in dusted.items()})
    for one in sorted(served, key=lambda s: (s.day, s.event)):
        if one.outcome == "regurgitated":
            back.append(one.day)
            if _about_an_earlier(one, offers):
                continue
        offer = offer_of(one.day, one.item, one.count, one.mass_g, one.outcome, one.event)
        offers.append(_dusted(offer, left[one.day]) if left else offer)
    return Meals(tuple(offers), tuple(back))


def _about_an_earlier(one: Served, offers: Sequence[Offer]) -> bool:
    eaten = next((o for o in reversed(offers) if not o.refused), None)
    if eaten is None or (one.day - eaten.day).days > COMES_BACK_DAYS:
        return False
    return known_prey(one.item) == known_prey(eaten.prey)


def _dusted(offer: Offer, powders: list[str]) -> Offer:
    if not powders or not _is_insect(offer):
        return offer
    return replace(offer, dust=powders.pop(0))


def _is_insect(offer: Offer) -> bool:
    prey = known_prey(offer.prey)
    return prey is not None and prey.insect
