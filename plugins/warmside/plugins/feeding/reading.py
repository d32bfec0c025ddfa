"""What the plugin knows of the animals on a day, read for all of them at once."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from datetime import date, timedelta
from functools import cached_property
from weakref import WeakKeyDictionary

from warmside.api import Book, Estimate, Event, Unit, Whereabouts
from warmside.plugins.feeding import newest
from warmside.plugins.feeding.energy import Day
from warmside.plugins.feeding.history import Meals, meals_of
from warmside.plugins.feeding.own import Own
from warmside.plugins.feeding.own_rows import own_feeding
from warmside.plugins.feeding.plan import Subject
from warmside.plugins.feeding.records import Weighing
from warmside.plugins.feeding.rules import Rules, rule_rows, rules_with
from warmside.plugins.feeding.situation import KINDS, situation_of
from warmside.plugins.feeding.species import Species, species_for
from warmside.plugins.feeding.temperatures import own_day

# Common practice, no source: an older girth says little of a growing or fasting animal.
GIRTH_DAYS = 180
# Readings of the enclosure that stand for how warm the animal lives now.
CLIMATE_DAYS = 60
# How far back the stages of one shed cycle or the begin of a cooling is looked for.
CYCLE_DAYS, COOLING_DAYS = 30, 300
# Tasks and findings of one round share what was read; kept no longer than the snapshot.
_read: WeakKeyDictionary[Book, dict[tuple[int, date], Meals]] = WeakKeyDictionary()


def rules_of(book: Book) -> Rules:
    """The rules with the keeper's settings."""
    values = book.settings("feeding")
    return rules_with({name: values[name] for name in rule_rows()}, book.home.display)


class Reading:
    """The state of animals on a day, as values for the pure part; `load` reads many at once."""

    def __init__(self, book: Book, on: date) -> None:
        self.book, self.on = book, on
        self.rules = rules_of(book)
        # The calendar asks for many days to come: meals up to today serve for all of them.
        self._seen = min(on, book.today)
        self._meals = _read.setdefault(book, {})
        self._species: dict[int, Species | None] = {}

    @cached_property
    def own(self) -> Mapping[int, Own]:
        """How single animals are fed."""
        return own_feeding(self.book)

    @cached_property
    def _latest(self) -> dict[str, dict[int, Event]]:
        return self.book.latest("weighed", "measured", *KINDS, on=self.on)

    @cached_property
    def whereabouts(self) -> Mapping[int, Whereabouts]:
        """Where each animal is and since when."""
        return self.book.whereabouts(self.on)

    def here(self) -> tuple[int, ...]:
        """The animals here whose species the plugin can feed, their meals loaded."""
        ids = [a for a, w in self.whereabouts.items() if w.custody.is_here and self.species(a)]
        self.load(ids)
        return tuple(ids)

    def load(self, ids: Collection[int]) -> None:
        """Read the meals of these animals, unless they were read before."""
        missing = [i for i in ids if (i, self._seen) not in self._meals]
        if not missing:
            return
        assume = bool(self.book.setting("feeding", "dust_as_planned"))
        served = newest.served(self.book, missing, self._seen)
        powders = newest.dusted(self.book, missing, self._seen)
        for id in missing:
            found = meals_of(served.get(id, ()), powders.get(id, {}), assume)
            self._meals[id, self._seen] = found

    def meals(self, animal_id: int) -> Meals:
        """The recent meals of an animal."""
        self.load([animal_id])
        return self._meals[animal_id, self._seen]

    def meals_since(self, animal_id: int, since: date) -> Meals:
        """All meals from a day on, also where these are more than the recent ones."""
        recent = self.meals(animal_id)
        if len(recent.offers) < newest.RECENT or recent.offers[0].day <= since:
            return recent
        fed = self.book.events("fed", animal=animal_id, since=since, until=self.on)
        return meals_of([newest.served_in(e) for e in fed], {})

    def species(self, animal_id: int) -> Species | None:
        """How the animal is fed: its species' row with the keeper's own values; None if unknown."""
        kind = self.book.animals[animal_id].species
        if kind.id not in self._species:
            self._species[kind.id] = species_for(kind.scientific, kind.group)
        found, own = self._species[kind.id], self.own.get(animal_id)
        return own.on(found) if found and own else found

    def weighing(self, animal_id: int) -> Weighing | None:
        """The last weight."""
        event = self._latest["weighed"].get(animal_id)
        return Weighing(event.day, event.data["mass_g"], event.id) if event else None

    def weighings(self, animal_id: int, since: date) -> tuple[Weighing, ...]:
        """The weights from a day on, oldest first."""
        found = self.book.events("weighed", animal=animal_id, since=since, until=self.on)
        return tuple(Weighing(e.day, e.data["mass_g"], e.id) for e in found)

    def girth_mm(self, animal_id: int) -> float | None:
        """The last girth that is not too old."""
        last = self._latest["measured"].get(animal_id)
        since = self.on - timedelta(days=GIRTH_DAYS)
        if last is None or last.day < since:
            return None
        if last.data["girth_mm"] is None:
            known = self.book.events("measured", animal=animal_id, since=since, until=self.on)
            girths = [e.data["girth_mm"] for e in known if e.data["girth_mm"]]
            return girths[-1] if girths else None
        return float(last.data["girth_mm"])

    def expected(self, what: str, animal_id: int, on: date, unit: Unit) -> Estimate | None:
        """What other plugins expect, the narrowest range; None without an answer."""
        found = self.book.expected(what, animal_id, on)
        return next((e for _, e in found if e.unit is unit), None)

    def mass_on(self, animal_id: int, day: date) -> Estimate | None:
        """The mass that another plugin expects."""
        return self.expected("mass", animal_id, day, Unit.MASS)

    def subject(self, animal_id: int, *, ask: bool = True) -> Subject | None:
        """What the plan rests on; None for a species that cannot be fed by this plugin.

        Without `ask` no other plugin is asked, for what only needs to know when.
        """
        species = self.species(animal_id)
        if species is None:
            return None
        meals, last = self.meals(animal_id), self._last(animal_id)
        situation = situation_of(
            last,
            meals.regurgitations,
            self._earlier("shedding", last, "clear", CYCLE_DAYS),
            self._earlier("cooling", last, "ended", COOLING_DAYS),
            self._slough(animal_id) if ask else None,
        )
        return Subject(
            species,
            self.weighing(animal_id),
            meals.offers,
            self.mass_on(animal_id, self.on) if ask else None,
            self.girth_mm(animal_id),
            situation,
        )

    def _last(self, animal_id: int) -> dict[str, Event]:
        return {k: self._latest[k][animal_id] for k in KINDS if animal_id in self._latest[k]}

    def _earlier(self, kind: str, last: Mapping[str, Event], word: str, days: int) -> list[Event]:
        """The events before the last one, where that says `word` and so points back to them."""
        event = last.get(kind)
        if event is None or word not in event.data.values():
            return []
        since = event.day - timedelta(days=days)
        return self.book.events(kind, animal=event.animal_id, since=since, until=event.day)

    def _slough(self, animal_id: int) -> tuple[date, date] | None:
        """First and last day of the slough that another plugin expects (days from the day)."""
        told = self.expected("days to slough", animal_id, self.on, Unit.DAYS)
        if told is None:
            return None
        return tuple(self.on + timedelta(days=round(d)) for d in (told.low, told.high))  # type: ignore[return-value]

    def day_c(self, animal_id: int) -> Day | None:
        """The temperatures that were read in its enclosure of late; None without readings."""
        species, where = self.species(animal_id), self.whereabouts[animal_id]
        last = self.book.latest_in("climate", on=self.on)["climate"].get(where.enclosure_id or 0)
        since = self.on - timedelta(days=CLIMATE_DAYS)
        if species is None or last is None or last.day < since:
            return None
        own = self.own.get(animal_id)
        read = self.book.events(
            "climate", enclosure=where.enclosure_id, since=max(since, where.since), until=self.on
        )
        warm, cool = ([e.data[k] for e in read if e.data[k] is not None] for k in _SIDES)
        return own_day(species, warm, cool, own.warm_hours if own else None)


_SIDES = ("warm_c", "cool_c")
