"""What was eaten against the body and what it burns, as parts of an answer, with a chart."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from msgspec import Struct

from warmside.api import (
    Basis,
    Cell,
    Column,
    Estimate,
    Fact,
    Kind,
    Part,
    Source,
    Table,
    Tone,
    Unit,
    Words,
    charts,
    counted,
)
from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.care.species import Species
from warmside.plugins.feeding.care.stages import Stages, only
from warmside.plugins.feeding.condition.balance import (
    Balance,
    balance,
    kept_down,
    meal_kj,
)
from warmside.plugins.feeding.condition.digestion import digestion_of
from warmside.plugins.feeding.condition.intake import Intake, intake
from warmside.plugins.feeding.condition.loss import trend
from warmside.plugins.feeding.energy.rates import Span
from warmside.plugins.feeding.meals.history import Meals
from warmside.plugins.feeding.meals.records import Offer
from warmside.plugins.feeding.prey.classes import known_prey
from warmside.plugins.feeding.reading import Reading

MEAL_COLUMNS = (
    Column("day", "day", Kind.DATE),
    Column("prey", "prey"),
    Column("count", "count", Unit.COUNT),
    Column("eaten", "eaten", Unit.COUNT),
    Column("energy", "energy", Unit.ENERGY),
)
NO_SHARE = "no share of body mass is known for its species and stage"
USUAL = "meals of its species and stage over their days, in a month"
DEFER = (
    "a keeper's estimate, no ration: a vet decides for an animal that is ill, thin, fat or does "
    "not eat"
)


class Account(Struct, frozen=True):
    """What was eaten and burnt, with the species and the meals it is about."""

    species: Species
    meals: Meals
    balance: Balance
    intake: Intake


def account(reading: Reading, animal_id: int, weeks: int | None = None) -> Account | None:
    """The balance of the weeks up to the day; None without a weight or figures for its kind."""
    subject = reading.subject(animal_id)
    if subject is None or subject.weighing is None or not subject.species.has_stages:
        return None
    weeks = weeks or round(reading.rules.balance_weeks)
    mass = subject.mass(reading.on, reading.rules)
    assert mass is not None
    since = reading.on - timedelta(days=7 * weeks)
    weighed = reading.weighings(animal_id, since)
    meals = reading.meals_since(animal_id, since)
    found = balance(
        subject.species,
        mass.mass,
        meals.offers,
        reading.on,
        weeks,
        reading.rules,
        day=reading.day_c(animal_id),
        stage=mass.stage,
        trend=trend(weighed, since, reading.on, reading.rules),
        regurgitations=meals.regurgitations,
    )
    kept = kept_down(meals.offers, meals.regurgitations)
    usual = usual_of(subject.species, mass.stages)
    eaten = intake(kept, weighed, mass.middle, since, reading.on, usual)
    return Account(subject.species, meals, found, eaten)


def usual_of(species: Species, stages: Stages) -> tuple[Span, Span, Source] | None:
    """Percent of body mass a meal and days between meals of its stage, with their source.

    None where no share of body mass is known for it.
    """
    share = species.part.share(only(stages))
    return (share, species.interval(stages), species.meal_source) if share else None


def parts(reading: Reading, animal_id: int, weeks: int | None = None) -> tuple[Part, ...]:
    """The balance in words, numbers and a chart; empty where nothing can be said."""
    found = account(reading, animal_id, weeks)
    if found is None:
        return ()
    told = found.balance
    return (
        Words(intake_words(found.intake, reading.rules)),
        *_eaten(found.intake),
        Fact("verdict", "by energy", told.verdict.value),
        Words(told.words),
        *_facts(told, reading.day_c(animal_id) is not None),
        chart(found),
        Table("meals", MEAL_COLUMNS, tuple(_meal_rows(found)), "Meals", "no meals on record"),
        Words(DEFER, Tone.CAUTION),
    )


def intake_words(eaten: Intake, rules: Rules) -> str:
    """Grams a month, their share of the body, the usual share, and what came of it."""
    if not eaten.meals:
        return f"no known meal in the last {counted(eaten.days, 'day')}"
    grams = rules.grams(eaten.month_g.value or 0.0)
    said = [f"eats about {grams} a month, {eaten.month_percent.value:.2g} % of its mass"]
    said.append(_against_usual(eaten))
    if eaten.gain_g is not None:
        change = "gained" if eaten.gain_g >= 0 else "lost"
        said.append(f"it {change} {rules.grams(abs(eaten.gain_g))} in that time")
    if eaten.weighed < eaten.meals:
        said.append(f"{eaten.weighed} of {counted(eaten.meals, 'meal')} weighed, the rest by class")
    return "; ".join(said)


def _against_usual(eaten: Intake) -> str:
    if eaten.usual_percent is None:
        return f"{eaten.verdict} for what it is fed"
    low, high = eaten.usual_percent
    return f"usual for its species and stage are {low:.2g} to {high:.2g} %: {eaten.verdict}"


def _usual(eaten: Intake) -> Estimate | None:
    if eaten.usual_percent is None or eaten.usual_source is None:
        return None
    return Estimate(None, *eaten.usual_percent, Unit.PERCENT, Basis(USUAL, eaten.usual_source))


def _eaten(eaten: Intake) -> Iterator[Fact]:
    yield Fact("month", "eaten a month", eaten.month_g, Unit.MASS)
    yield Fact("month_share", "share of its mass", eaten.month_percent, Unit.PERCENT)
    yield Fact("usual_share", "usual share", _usual(eaten), Unit.PERCENT, missing=NO_SHARE)
    weigh = f"wants two weighings on different days within these {counted(eaten.days, 'day')}"
    yield Fact("gain", "change of mass", eaten.gain_g, Unit.MASS, missing=weigh)
    why = weigh if eaten.gain_g is None else "wants a meal that was eaten in this time"
    yield Fact("gain_per_gram", "gain per gram eaten", eaten.per_gram, Unit.RATIO, missing=why)


def _facts(told: Balance, own_temperatures: bool) -> Iterator[Fact]:
    yield Fact("since", "from", told.since, Kind.DATE)
    yield Fact("until", "until", told.until, Kind.DATE)
    yield Fact("eaten", "eaten", told.eaten, Unit.ENERGY_RATE)
    yield Fact("net", "after digestion", told.net, Unit.ENERGY_RATE)
    yield Fact("standard", "standard rate", told.needs.standard, Unit.ENERGY_RATE)
    yield Fact("resting", "resting rate", told.needs.resting, Unit.ENERGY_RATE)
    yield Fact("field", "field rate", told.needs.field, Unit.ENERGY_RATE)
    yield Fact("ratio", "net over resting", told.ratio, Unit.RATIO)
    weigh = "wants two weighings on different days in this time"
    yield Fact("trend", "weight", told.trend, Unit.PERCENT, missing=weigh)
    said = "read in its enclosure" if own_temperatures else "usual for its species"
    yield Fact("temperatures", "temperatures", said)


def _inside(found: Account) -> list[Offer]:
    since, until = found.balance.since, found.balance.until
    return [o for o in found.meals.offers if since < o.day <= until]


def _meal_rows(found: Account) -> Iterator[tuple[Cell, ...]]:
    for offer in _inside(found):
        prey = known_prey(offer.prey)
        energy = None
        eaten = 0.0 if offer.came_back else offer.eaten
        if prey and eaten:
            energy = Estimate(*meal_kj(offer), Unit.ENERGY, Basis("as fed", prey.energy_source))
        yield (offer.day, prey.name if prey else offer.prey, offer.count, eaten, energy)


def chart(found: Account) -> charts.Chart:
    """Energy eaten, less digestion, summed up beside what it burns at rest."""
    told = found.balance
    days = [told.since + timedelta(days=n) for n in range(7 * told.weeks + 1)]
    x = tuple(float(d.toordinal()) for d in days)
    resting = told.needs.resting

    def summed(rate: float | None) -> tuple[float, ...]:
        return tuple((rate or 0.0) * n for n in range(len(days)))

    return charts.Chart(
        "balance",
        "Energy eaten and burnt, summed up",
        "day",
        "energy",
        Unit.ENERGY,
        lines=(
            charts.Line("eaten, after digestion", x, eaten_sum(found, days)),
            charts.Line("burnt at rest", x, summed(resting.value)),
        ),
        bands=(charts.Band("burnt at rest, range", x, summed(resting.low), summed(resting.high)),),
        marks=tuple(_mark_rows(found)),
    )


def _mark_rows(found: Account) -> Iterator[charts.MarkRow]:
    for title, sign, refused in (("meals", "|", False), ("refused", "x", True)):
        days = tuple(float(o.day.toordinal()) for o in _inside(found) if o.refused is refused)
        if days:
            yield charts.MarkRow(title, days, sign)


def eaten_sum(found: Account, days: list[date]) -> tuple[float, ...]:
    """Energy of the meals kept down up to each day, less digestion, in kJ."""
    cost, since = 1.0 - digestion_of(found.species).usual, found.balance.since
    kept = kept_down(found.meals.offers, found.meals.regurgitations)
    meals = [(o.day, meal_kj(o)[0] * cost) for o in kept if o.day > since and known_prey(o.prey)]
    return tuple(sum(kj for day, kj in meals if day <= until) for until in days)
