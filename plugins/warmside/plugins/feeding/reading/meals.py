"""The recent meals of many animals at once, each by its index; kept across runs by animal."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Mapping, Sequence
from datetime import date
from typing import Any

from warmside.api import Ask, Book, Event
from warmside.plugins.feeding.kinds import DUSTED
from warmside.plugins.feeding.meals.history import Meals, Served, meals_of, with_signs
from warmside.plugins.feeding.reading.noted import food_said, own_words

# So many newest events of a kind are read for each animal, so that no plan grows with the years.
RECENT = 40
SIGN, CAME_BACK = "sign", "regurgitated"
EVENTS = ("event:fed", f"event:{DUSTED}", f"event:{SIGN}")
Known = dict[tuple[int, date], Meals]


def load(ask: Ask, ids: Collection[int], seen: date) -> Known:
    """The recent meals of these animals up to a day; what was read before is read no more."""
    book = ask.book
    known: Known = book.once(("feeding", "meals"), dict)
    missing = [i for i in ids if (i, seen) not in known]
    if missing:

        def make(ids: Sequence[int]) -> dict[int, Meals]:
            served, powders = _served(book, ids, seen), _dusted(book, ids, seen)
            back = _seen_to_come_back(book, ids, seen)
            own = {i: meals_of(served.get(i, ()), powders.get(i, {})) for i in ids}
            return {i: with_signs(own[i], back.get(i, ())) for i in ids}

        words = "; ".join(f"{word}={prey}" for word, prey in own_words(book).items())
        each = dict.fromkeys(missing, words)
        found = book.derived_each("feeding.meals", seen, each, EVENTS, make, Meals)
        known |= {(i, seen): meals for i, meals in found.items()}
    return known


def recent(ask: Ask, animal_id: int, seen: date) -> Meals:
    """The recent meals of one animal up to a day."""
    return load(ask, [animal_id], seen)[animal_id, seen]


def since(book: Book, recent: Meals, animal_id: int, since: date, until: date) -> Meals:
    """All meals of an animal from a day on; the `recent` ones where they reach back so far."""
    if len(recent.offers) < RECENT or recent.offers[0].day <= since:
        return recent
    fed = book.events("fed", animal=animal_id, since=since, until=until)
    back = _seen_to_come_back(book, [animal_id], until).get(animal_id, ())
    return with_signs(meals_of([served_in(book, e) for e in fed], {}), back)


def served_in(book: Book, fed: Event) -> Served:
    """What a feeding event says was served, the keeper's own words made classes."""
    return _of(book, fed.day, fed.data, fed.id)


def _of(book: Book, day: date, told: Mapping[str, Any], id: int) -> Served:
    item = food_said(book, told["item"])
    return Served(day, item, told["count"], told["mass_g"], told["outcome"], id)


def _served(book: Book, ids: Collection[int], on: date) -> Mapping[int, list[Served]]:
    found = defaultdict[int, list[Served]](list)
    for animal_id, day, data, id in book.newest("fed", ids, on, RECENT):
        found[animal_id].append(_of(book, day, data, id))
    return found


def _dusted(book: Book, ids: Collection[int], on: date) -> Mapping[int, Mapping[date, list[str]]]:
    """The powders of each day, by animal."""
    found = defaultdict[int, dict[date, list[str]]](dict)
    for animal_id, day, data, _ in sorted(book.newest(DUSTED, ids, on, RECENT), key=lambda r: r[3]):
        found[animal_id].setdefault(day, []).append(data["powder"])
    return found


def _seen_to_come_back(book: Book, ids: Collection[int], on: date) -> Mapping[int, list[date]]:
    """The days on which a regurgitation was written as a sign, by animal; a later `not so` takes
    them back."""
    found = defaultdict[int, list[date]](list)
    for animal_id, day, data, _ in sorted(book.newest(SIGN, ids, on, RECENT), key=lambda r: r[3]):
        if data["sign"] == CAME_BACK and data["state"] == "seen":
            found[animal_id].append(day)
        elif data["sign"] == CAME_BACK and data["state"] == "not so":
            found[animal_id].clear()
    return found
