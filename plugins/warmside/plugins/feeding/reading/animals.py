"""What the plugin knows of the animals on a day, read for all of them at once."""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Collection, Mapping
from datetime import date, timedelta
from functools import cached_property

from msgspec.structs import replace

from warmside.api import About, Ask, Basis, Estimate, Event, Valued, Whereabouts
from warmside.plugins.feeding.care.own import Own
from warmside.plugins.feeding.care.own_diet import OwnPart, on_own_diet
from warmside.plugins.feeding.care.rules import Rules, rule_rows, rules_with
from warmside.plugins.feeding.care.species import Species, species_for, unknown_kind
from warmside.plugins.feeding.care.temperatures import own_day
from warmside.plugins.feeding.energy.rates import Day
from warmside.plugins.feeding.kinds import LOOKED
from warmside.plugins.feeding.meals.history import Meals
from warmside.plugins.feeding.meals.records import Weighing
from warmside.plugins.feeding.planning.situation import KINDS, situation_of
from warmside.plugins.feeding.planning.subject import Subject
from warmside.plugins.feeding.planning.waits import Situation
from warmside.plugins.feeding.reading import bodies, meals
from warmside.plugins.feeding.reading.grown import CONDITION, body_of, of_its_sex
from warmside.plugins.feeding.reading.noted import own_diets, own_feeding
from warmside.plugins.feeding.reading.since import entered_late
from warmside.plugins.feeding.reading.stock import stocked
from warmside.plugins.feeding.settings import UNKNOWN

# How far back the stages of one shed cycle or the begin of a cooling is looked for.
CYCLE_DAYS, COOLING_DAYS = 30, 300
WEIGHED_DAYS = 190  # weighings of all are read so far back at once: most look back less
READ_KINDS = ("weighed", "measured", CONDITION, LOOKED, *KINDS)


def rules_of(ask: Ask) -> Rules:
    """The rules with the keeper's settings for the whole collection."""

    def make() -> Rules:
        values = ask.settings("feeding")
        return rules_with({name: values[name] for name in rule_rows()}, ask.book.home.display)

    return ask.book.once(("feeding", "rules"), make)


class Reading:
    """The state of animals on a day, as values for the pure part.

    `alone`: one animal is asked about, so nothing is read for the others.
    """

    def __init__(self, ask: Ask, on: date, *, alone: bool = False) -> None:
        self.ask, self.book, self.on = ask, ask.book, on
        self.rules = rules_of(ask)
        self._alone = alone
        self._assumed = bool(ask.settings("feeding")["dust_as_planned"])
        # The calendar asks for many days to come: meals up to today serve for all of them.
        self._seen = min(on, self.book.today)
        self._lasts: dict[int, Mapping[str, Event]] = {}

    @property
    def own(self) -> Mapping[int, Own]:
        """How single animals are fed."""
        return own_feeding(self.book)

    def here(self) -> tuple[int, ...]:
        """The animals here whose species the plugin can feed, their meals loaded."""
        ids = [a for a in self.book.animals_here(self.on) if self.species(a)]
        self.load(ids)
        return tuple(ids)

    def meant(self, about: About) -> tuple[int, ...]:
        """The animals that an animal or an enclosure stands for: it, or those that live in it."""
        if about.animal_id is not None:
            return (about.animal_id,)
        return self.book.occupants(self.on).get(about.enclosure_id or 0, ())

    def where(self, animal_id: int) -> Whereabouts:
        """Where an animal is and since when."""
        if self._alone:
            return self.book.whereabouts_of(animal_id, self.on)
        return self.book.whereabouts(self.on)[animal_id]

    def load(self, ids: Collection[int]) -> None:
        """Read the recent meals of these animals, unless they were read before."""
        meals.load(self.ask, ids, self._seen)

    def meals(self, animal_id: int) -> Meals:
        """The recent meals of an animal."""
        return meals.recent(self.ask, animal_id, self._seen)

    def meals_since(self, animal_id: int, since: date) -> Meals:
        """All meals from a day on, also where these are more than the recent ones."""
        return meals.since(self.book, self.meals(animal_id), animal_id, since, self.on)

    def species(self, animal_id: int) -> Species | None:
        """How the animal is fed: its species' row with the keeper's own values; None if unknown."""
        key = ("feeding", "species of", animal_id)
        return self.book.once(key, lambda: self._species(animal_id))

    def _species(self, animal_id: int) -> Species | None:
        found, animal = self.shipped(animal_id), self.book.animals[animal_id]
        found, kind = found and found.for_sex(animal.sex), animal.species
        own, diet = self.own.get(animal_id), self._own_diet(animal_id, kind.id)
        if diet:
            found = on_own_diet(found or unknown_kind(kind.scientific, kind.common), diet)
        return own.on(found) if found and own else found

    def shipped(self, animal_id: int) -> Species | None:
        """How its species is fed by the shipped rows alone; None if unknown."""
        kind = self.book.animals[animal_id].species
        make = lambda: species_for(kind.scientific, kind.group)  # noqa: E731
        return self.book.once(("feeding", "species", kind.id), make)

    def _own_diet(self, animal_id: int, species_id: int) -> tuple[OwnPart, ...]:
        """The diet that the keeper set, for the animal before that for its species."""
        diets = own_diets(self.book)
        return diets.get(("animal", animal_id)) or diets.get(("species", species_id), ())

    def weighing(self, animal_id: int) -> Weighing | None:
        """The last weight."""
        event = self.last(animal_id).get("weighed")
        return Weighing(event.day, event.data["mass_g"], event.id) if event else None

    def weighings(self, animal_id: int, since: date) -> tuple[Weighing, ...]:
        """The weights from a day on, oldest first."""
        if self._alone:
            return bodies.weighings(self.book, animal_id, since, self.on)
        widest = min(since, self.on - timedelta(days=WEIGHED_DAYS))
        those = bodies.all_weighings(self.book, widest, self.on).get(animal_id, ())
        return those[bisect_left(those, since, key=lambda w: w.day) :]

    def girth_mm(self, animal_id: int) -> float | None:
        """The last girth that is not too old."""
        if not self._alone:
            return bodies.all_girths_mm(self.book, self.on).get(animal_id)
        return bodies.girth_mm(self.book, self.last(animal_id).get("measured"), self.on)

    def day_c(self, animal_id: int) -> Day | None:
        """The temperatures that were read in its enclosure of late; None without readings.

        Those read by hand, else the warmest and the coolest zone by a logger.
        """
        species, own = self.species(animal_id), self.own.get(animal_id)
        read = bodies.climate_c(self.book, self.where(animal_id), self.on)
        read = read if read and all(read) else self._logged_c(animal_id)
        if species is None or read is None:
            return None
        return own_day(species, *read, own.warm_hours if own else None)

    def _logged_c(self, animal_id: int) -> bodies.Readings | None:
        """The means of the warmest and of the coolest zone of its home, as another plugin tells."""
        told = self.ask.answers("zone temperature", About(animal_id), self.on)
        means = [a.estimate.value for a in told if a.estimate.value is not None]
        return ([max(means)], [min(means)]) if len(means) > 1 else None

    def mass_on(self, animal_id: int, day: date) -> Estimate | None:
        """The mass that other plugins expect, the narrowest range; None without an answer."""
        return self._expected("mass", animal_id, day)

    def retry(self, animal_id: int) -> Valued:
        """After how many days it is offered food again once it refused."""
        return self.ask.value("feeding", "retry_days", About(animal_id))

    def uvb(self, animal_id: int) -> bool | None:
        """Whether it has UVB light, where the keeper said so."""
        said = self.ask.setting("feeding", "uvb", About(animal_id))
        return None if said == UNKNOWN else said == "yes"

    def subject(self, animal_id: int, *, ask: bool = True) -> Subject | None:
        """What the plan rests on; None for a species that cannot be fed by this plugin.

        Without `ask` no other plugin is asked, for what only needs to know when.
        """
        key = ("feeding", "subject", animal_id, self.on, ask)
        make = self._asked if ask else self._unasked
        return self.book.once(key, lambda: make(animal_id))

    def _asked(self, animal_id: int) -> Subject | None:
        own = self.subject(animal_id, ask=False)
        if own is None:
            return None
        return replace(
            own,
            expected=self.mass_on(animal_id, self.on),
            situation=replace(
                own.situation,
                slough_expected=self._slough(animal_id),
                told=self._told(animal_id),
            ),
            stocked=stocked(self.ask, self.on),
        )

    def _unasked(self, animal_id: int) -> Subject | None:
        species = self.species(animal_id)
        if species is None:
            return None
        recent, last = self.meals(animal_id), self.last(animal_id)
        dusted = species.diet.has("insect", "plant", "worm", "fish")
        return Subject(
            of_its_sex(species, self.ask, animal_id, self.on),
            self.weighing(animal_id),
            recent.offers,
            None,
            self.girth_mm(animal_id),
            self._situation(last, recent),
            self.retry(animal_id),
            self._came(animal_id),
            self.book.animals[animal_id].species.group,
            self.uvb(animal_id) if dusted else None,
            self._assumed,
            self.ask.stage(animal_id, self.on),
            body_of(self.ask, animal_id, self.on, last),
            self._eyes_mm(animal_id) if dusted else None,
            entered=self._entered(animal_id, species, recent),
        )

    def _situation(self, last: Mapping[str, Event], recent: Meals) -> Situation:
        """What is going on with it, by the last event of each kind and its recent meals."""
        return situation_of(
            last,
            recent.regurgitations,
            self._earlier("shedding", last, "clear", CYCLE_DAYS),
            self._earlier("cooling", last, "ended", COOLING_DAYS),
        )

    def _eyes_mm(self, animal_id: int) -> float | None:
        """The space between its eyes as the keeper measured it."""
        return float(self.ask.setting("feeding", "eye_gap", About(animal_id))) or None

    def _came(self, animal_id: int) -> date | None:
        """The day since which it is where it is; None where no record tells."""
        since = self.where(animal_id).since
        return since if since > date.min else None

    def _entered(self, animal_id: int, species: Species, recent: Meals) -> date | None:
        """When it was entered, if it came before; not looked for where it ate all of its diet."""
        diet = species.diet
        eaten = {o.prey for o in recent.offers if o.eaten and not o.came_back}
        parts = {p.key for p in diet.parts}
        if eaten and (len(parts) < 2 or parts <= set(map(diet.key_of, eaten))):
            return None
        return entered_late(self.book, animal_id, self.on)

    def last(self, animal_id: int) -> Mapping[str, Event]:
        """The last event of each kind that tells of the animal."""
        if animal_id not in self._lasts:
            self._lasts[animal_id] = self._read_last(animal_id)
        return self._lasts[animal_id]

    def _read_last(self, animal_id: int) -> Mapping[str, Event]:
        if self._alone:
            return self.book.latest_of(animal_id, *READ_KINDS, on=self.on)
        return self._latest.get(animal_id, {})

    @cached_property
    def _latest(self) -> Mapping[int, Mapping[str, Event]]:
        found = defaultdict[int, dict[str, Event]](dict)
        for kind, events in self.book.latest(*READ_KINDS, on=self.on).items():
            for animal_id, event in events.items():
                found[animal_id][kind] = event
        return found

    def _earlier(self, kind: str, last: Mapping[str, Event], word: str, days: int) -> list[Event]:
        """The events before the last one, where that says `word` and so points back to them."""
        event = last.get(kind)
        if event is None or word not in event.data.values():
            return []
        since = event.day - timedelta(days=days)
        return self.book.events(kind, animal=event.animal_id, since=since, until=event.day)

    def _slough(self, animal_id: int) -> tuple[date, date] | None:
        """First and last day of the slough that another plugin expects (days from the day)."""
        told = self._expected("days to slough", animal_id, self.on)
        if told is None:
            return None
        first, last = (self.on + timedelta(days=round(d)) for d in (told.low, told.high))
        return first, last

    def _told(self, animal_id: int) -> Basis | None:
        """A vet's word by which it is fed instead of by its plan, as another plugin tells it."""
        found = self.ask.answers("feeding as told", About(animal_id), self.on)
        return found[0].given.basis if found else None

    def _expected(self, what: str, animal_id: int, on: date) -> Estimate | None:
        found = self.ask.answers(what, About(animal_id), on)
        return found[0].estimate if found else None
