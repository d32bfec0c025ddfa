"""What an animal was offered and what stayed down, from its feeding events."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping, Sequence
from datetime import date

from msgspec import Struct
from msgspec.structs import replace

from warmside.plugins.feeding.meals.records import Offer, offer_of
from warmside.plugins.feeding.prey.classes import known_prey

# Common practice, no source: a meal comes back within a few days, and before the next one.
COMES_BACK_DAYS = 4
# What a powder goes on; whole prey and prepared food get none.
POWDERED = ("insect", "plant", "worm", "fish")


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
    meal, no meal of its own. `dusted` are the powders of a day: on its insects, where there were
    any, else on its greens, worms or fish.
    """
    offers, back, served = list[Offer](), list[date](), tuple(served)
    insects = {one.day for one in served if _nature(one.item) == "insect"} if dusted else set()
    left = defaultdict(list, {day: list(powders) for day, powders in dusted.items()})
    for one in sorted(served, key=lambda s: (s.day, s.event)):
        if one.outcome == "regurgitated":
            back.append(one.day)
            earlier = _about_an_earlier(one, offers)
            if earlier is not None:
                offers[earlier] = replace(offers[earlier], came_back=True)
                continue
        offer = offer_of(one.day, one.item, one.count, one.mass_g, one.outcome, one.event)
        offer = replace(offer, came_back=True) if one.outcome == "regurgitated" else offer
        offers.append(_dusted(offer, left[one.day], insects) if left else offer)
    return Meals(tuple(offers), tuple(back))


def with_signs(meals: Meals, seen: Iterable[date]) -> Meals:
    """The meals with the days on which a regurgitation was seen and written as a sign of illness.

    What was seen within a few days of one that is known is that one. The last meal within these
    days before it came back.
    """
    offers, back = list(meals.offers), list(meals.regurgitations)
    for day in sorted(set(seen)):
        if any(abs((day - known).days) <= COMES_BACK_DAYS for known in back):
            continue
        back.append(day)
        eaten = (i for i, o in enumerate(offers) if not o.refused and o.day <= day)
        last = max(eaten, default=None)
        if last is not None and (day - offers[last].day).days <= COMES_BACK_DAYS:
            offers[last] = replace(offers[last], came_back=True)
    return Meals(tuple(offers), tuple(sorted(back)))


def _about_an_earlier(one: Served, offers: Sequence[Offer]) -> int | None:
    """The place of the meal that came back; None where the record tells of a meal of its own."""
    place = next((i for i in reversed(range(len(offers))) if not offers[i].refused), None)
    if place is None or (one.day - offers[place].day).days > COMES_BACK_DAYS:
        return None
    same = known_prey(one.item) == known_prey(offers[place].prey)
    return place if same and not offers[place].came_back else None


def _dusted(offer: Offer, powders: list[str], insects: Collection[date]) -> Offer:
    wanted = ("insect",) if offer.day in insects else POWDERED
    if not powders or _nature(offer.prey) not in wanted:
        return offer
    return replace(offer, dust=powders.pop(0))


def _nature(item: str) -> str:
    prey = known_prey(item)
    return prey.nature if prey else ""
