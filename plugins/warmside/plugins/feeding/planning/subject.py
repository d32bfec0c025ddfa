"""What is known of one animal for the plan of its meals."""

from __future__ import annotations

from datetime import date
from functools import cached_property

from msgspec import Struct, field

from warmside.api import Estimate, Staged, Valued
from warmside.plugins.feeding.care.diets import Stage
from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.care.species import Species
from warmside.plugins.feeding.care.stages import Stages, only, possible
from warmside.plugins.feeding.energy.rates import middle_mass
from warmside.plugins.feeding.meals.records import Offer, Weighing, last_meal, last_refusal
from warmside.plugins.feeding.planning.body import Body
from warmside.plugins.feeding.planning.fit import Eater
from warmside.plugins.feeding.planning.mass import MassNow, mass_now
from warmside.plugins.feeding.planning.rests import Rests, rests_for
from warmside.plugins.feeding.planning.waits import Situation, Wait, standing
from warmside.plugins.feeding.prey.classes import known_prey


class Subject(Struct, frozen=True, dict=True):
    """What is known of one animal. `offers` are the recent ones, in any order.

    `expected` is the mass that another plugin expects; `girth_mm` the widest girth; `retry` after
    how many days it is offered again once it refused, None for the general rule; `here_since` the
    day on which it came; `family` its group in the collection; `uvb` whether it has UVB light,
    None where that is not known; `dusted_as_planned` the keeper's word for meals without a powder;
    `staged` its life stage as all plugins are told it; `body` its condition; `eyes_mm` the space
    between its eyes as measured; `stocked` the codes of food in stock; `entered` the day on which
    it was entered where it came before that, None where all that it eats is on record.
    """

    species: Species
    weighing: Weighing | None = None
    offers: tuple[Offer, ...] = ()
    expected: Estimate | None = None
    girth_mm: float | None = None
    situation: Situation = field(default_factory=Situation)
    retry: Valued | None = None
    here_since: date | None = None
    family: str = ""
    uvb: bool | None = None
    dusted_as_planned: bool = False
    staged: Staged | None = None
    body: Body = field(default_factory=Body)
    eyes_mm: float | None = None
    stocked: frozenset[str] = frozenset()
    entered: date | None = None

    @property
    def form(self) -> str:
        """Its body form: snake, lizard, tortoise, turtle."""
        return self.species.group

    @property
    def stage(self) -> Stage | None:
        """The life stage; None where several are possible."""
        return only(self.stages)

    @property
    def stages(self) -> Stages:
        """The life stages that are possible."""
        return possible(self.staged)

    def stages_at(self, mass_g: float) -> Stages:
        """The life stages that would be possible at another mass in g."""
        return possible(self.staged.at(mass_g) if self.staged else None)

    @cached_property
    def last_meal(self) -> Offer | None:
        """The newest offer of which something was eaten and stayed down."""
        return last_meal(self.offers)

    @property
    def is_unheard(self) -> bool:
        """Nothing is known of its meals: it came before it was entered, and none is on record."""
        return self.last_meal is None and self.entered is not None

    @cached_property
    def last_refusal(self) -> Offer | None:
        """The newest offer that was refused."""
        return last_refusal(self.offers)

    def mass(self, day: date, rules: Rules) -> MassNow | None:
        """The mass on a day; None without a weight."""
        if self.weighing is None:
            return None
        stages = self.stages
        if self.expected is not None:
            stages = self.stages_at(middle_mass(self.expected))
        return mass_now(self.weighing, day, self.species, rules, self.expected, stages)

    def eater(self, mass_g: float, rules: Rules) -> Eater:
        """Who is to eat, at a mass in g."""
        most = int(rules.most_items)
        eyes, stocked = self.eyes_mm, self.stocked
        young = self.stages_at(mass_g) == (Stage.HATCHLING,)
        return Eater(self.species, mass_g, most, self.girth_mm, eyes, self.eaten(), stocked, young)

    def eaten(self) -> tuple[str, ...]:
        """Codes of the part's food that it ate before, newest first."""
        foods = self.species.part.classes()
        offers = sorted((o for o in self.offers if not o.refused), key=lambda o: o.day)
        known = (known_prey(o.prey) for o in reversed(offers))
        return tuple(dict.fromkeys(p.code for p in known if p in foods))

    def rests(self, rules: Rules) -> Rests:
        """How long it is left without food after what upsets it."""
        return rests_for(self.form, self.species.latin, self.stages, rules, self.retry)

    def waits(self, day: date, rules: Rules) -> tuple[Wait, ...]:
        """The reasons to wait with the meal or to make it smaller that hold on a day."""
        return self.standing(day, rules)[0]

    def standing(self, day: date, rules: Rules) -> tuple[tuple[Wait, ...], date | None]:
        """The reasons that hold on a day, and the day on which its last rest was over."""
        return standing(self.situation, self.offers, day, self.rests(rules))
