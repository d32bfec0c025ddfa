"""The plugin's findings: refusals, regurgitation, too little, too much, stock."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from msgspec.structs import replace

from warmside.api import About, Ask, Basis, Finding, Level, LifeStage, counted
from warmside.plugins.feeding.care.diets import Stage
from warmside.plugins.feeding.condition.balance import Balance, Verdict, balance
from warmside.plugins.feeding.condition.loss import direction, trend
from warmside.plugins.feeding.condition.refusals import Level as Judged
from warmside.plugins.feeding.condition.refusals import judge, streak
from warmside.plugins.feeding.meals.records import Offer
from warmside.plugins.feeding.planning.forecast import forecast
from warmside.plugins.feeding.planning.mass import NO_WEIGHT, MassNow
from warmside.plugins.feeding.planning.subject import Subject
from warmside.plugins.feeding.planning.waits import Wait
from warmside.plugins.feeding.planning.whole import subjects_by_part
from warmside.plugins.feeding.prey.classes import known_prey, prey_named
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.reading.cases import case_of, loss_is_told
from warmside.plugins.feeding.reading.stock import stock
from warmside.plugins.feeding.reading.winter import course_of
from warmside.plugins.feeding.resting.steps import losing
from warmside.plugins.feeding.stock.lots import Lot, ages, shortages
from warmside.plugins.feeding.stock.order import planned_counts

LEVELS = {Judged.NOTE: Level.NOTE, Judged.SOON: Level.LOOK_SOON, Judged.VET: Level.ACT_NOW}
# Food that is kept in the freezer.
FROZEN = ("rodent", "bird", "fish")
# How far back the meal before a balance begins is looked for.
BEFORE_DAYS = 14
# A surplus is told for so long after the weighing that first shows it.
ONCE_DAYS = 14


def findings(ask: Ask, on: date, about: About | None = None) -> Iterator[Finding]:
    """What is to be known of the meals of all animals here and of the stock, or of one animal."""
    if about is None:
        yield from of_all(Reading(ask, on))
    elif about.animal_id is not None:
        reading = Reading(ask, on, alone=True)
        if reading.where(about.animal_id).custody.is_here:
            yield from of_animal(reading, about.animal_id)


def of_all(reading: Reading) -> Iterator[Finding]:
    """The findings of every animal here, and of the stock."""
    ids = reading.here()
    for animal_id in ids:
        yield from of_animal(reading, animal_id)
    lots = stock(reading.ask, reading.on)
    yield from old_stock(lots, reading)
    if lots:
        yield from short_stock(lots, reading, ids)


def of_animal(reading: Reading, animal_id: int) -> Iterator[Finding]:
    """The findings of one animal, the gravest kind alone."""
    subject = reading.subject(animal_id, ask=False)
    if subject is None:
        return
    if subject.weighing is None and any(p.percent for p in subject.species.diet.parts):
        yield Finding(
            "feeding.unweighed",
            Level.NOTE,
            NO_WEIGHT,
            Basis("no weight on record"),
            about=About(animal_id),
            task="weighed",
        )
    course = course_of(reading, animal_id)
    yield from losing(course) if course else ()
    reasons = subject.waits(reading.on, reading.rules)
    vet = next((w for w in reasons if w.see_vet), None)
    if vet:
        code, level = "feeding.regurgitated", Level.ACT_NOW
        yield Finding(code, level, vet.words, vet.basis, about=About(animal_id))
    elif streak(subject.offers):
        yield from refusing(reading, animal_id, subject, reasons)
    elif subject.weighing and subject.species.has_stages and not any(w.blocks for w in reasons):
        mass = subject.mass(reading.on, reading.rules)
        assert mass is not None
        yield from eating(reading, animal_id, subject, mass)


def refusing(
    reading: Reading, animal_id: int, subject: Subject, reasons: tuple[Wait, ...]
) -> Iterator[Finding]:
    """Refused meals, judged by the weight, its past, the season and its species."""
    judged = judge(case_of(reading, animal_id, subject, reasons), reading.on, reading.rules)
    if judged:
        level = LEVELS[judged.level]
        see = ": see a vet" if judged.level is Judged.VET else ""
        words = f"{judged.words}{see}"
        yield Finding("feeding.refusing", level, words, judged.basis, about=About(animal_id))


def eating(reading: Reading, animal_id: int, subject: Subject, mass: MassNow) -> Iterator[Finding]:
    """An animal that eats, but loses on less than it burns, or gains on long more than it needs."""
    rules = reading.rules
    if _change(reading, animal_id, rules.balance_weeks) < 0:
        little = _balance(reading, animal_id, subject, mass, round(rules.balance_weeks))
        if little is None or little.verdict is not Verdict.LESS:
            return
        # Who judges the loss says how soon; what it eats is then a reason, told beside it.
        level = Level.NOTE if loss_is_told(reading, animal_id) else Level.LOOK_SOON
        yield _told("feeding.underfed", level, little, animal_id)
    elif (much := _surplus(reading, animal_id, subject, mass)) and _is_new(reading, animal_id):
        yield _told("feeding.surplus", Level.NOTE, much, animal_id)


def _surplus(reading: Reading, animal_id: int, subject: Subject, mass: MassNow) -> Balance | None:
    """The balance of an adult that gained on long more than it needs."""
    weeks = reading.rules.surplus_weeks
    if mass.stage is not Stage.ADULT or not _grew_beyond(reading, animal_id, weeks):
        return None
    found = _balance(reading, animal_id, subject, mass, round(weeks))
    return found if found and found.verdict is Verdict.SURPLUS else None


def _is_new(reading: Reading, animal_id: int) -> bool:
    """Whether the last weighing is the first to show a surplus, for ONCE_DAYS after it: said once,
    not in every round until it is thinner."""
    weighed = reading.weighings(animal_id, reading.on - timedelta(days=365))
    if (reading.on - weighed[-1].day).days > ONCE_DAYS:
        return False
    before = next((w.day for w in reversed(weighed) if w.day < weighed[-1].day), None)
    if before is None:
        return True
    earlier = Reading(reading.ask, before, alone=True)
    subject = earlier.subject(animal_id, ask=False)
    mass = subject.mass(before, earlier.rules) if subject else None
    return not (subject and mass and _surplus(earlier, animal_id, subject, mass))


def _change(reading: Reading, animal_id: int, weeks: float) -> int:
    """-1 where its mass surely fell over some weeks, 1 where it rose, else 0: spares a balance."""
    since = reading.on - timedelta(days=round(7 * weeks))
    return direction(reading.weighings(animal_id, since), since, reading.on)


def _grew_beyond(reading: Reading, animal_id: int, weeks: float) -> bool:
    """Whether an adult surely rose, beyond what it weighed in the year before: it regains nothing
    that a fast or a clutch took, and was grown already."""
    since = reading.on - timedelta(days=round(7 * weeks))
    if _change(reading, animal_id, weeks) <= 0:
        return False
    year = reading.weighings(animal_id, since - timedelta(days=365))
    before = [w.mass_g for w in year if w.day < since]
    grown = reading.ask.stage(animal_id, since).stage in (LifeStage.ADULT, None)
    return grown and all(mass < year[-1].mass_g for mass in before)


def _told(code: str, level: Level, found: Balance, animal_id: int) -> Finding:
    basis = Basis(
        f"{counted(found.meals, 'meal')} in {counted(found.weeks, 'week')} against the "
        "resting rate",
        found.ratio.basis.source,
        found.eaten.basis.events,
    )
    words = f"by energy {found.verdict.value}: {found.words}"
    return Finding(code, level, words, basis, about=About(animal_id))


def _balance(
    reading: Reading, animal_id: int, subject: Subject, mass: MassNow, weeks: int
) -> Balance | None:
    """The balance of some weeks; None where the record does not tell all that it ate."""
    since = reading.on - timedelta(days=7 * weeks)
    meals = reading.meals_since(animal_id, since - timedelta(days=BEFORE_DAYS))
    if reading.where(animal_id).since > since or not _is_complete(meals.offers, since):
        return None
    change = trend(reading.weighings(animal_id, since), since, reading.on, reading.rules)
    return balance(
        subject.species,
        mass.mass,
        meals.offers,
        reading.on,
        weeks,
        reading.rules,
        day=reading.day_c(animal_id),
        stage=mass.stage,
        trend=change,
        regurgitations=meals.regurgitations,
    )


def _is_complete(offers: tuple[Offer, ...], since: date) -> bool:
    """It was fed before that day, and since then only food whose energy is known."""
    known = all(_has_energy(o) for o in offers if o.day > since and not o.refused)
    return known and bool(offers) and offers[0].day <= since


def _has_energy(offer: Offer) -> bool:
    """Its class is known, and its mass where it is given by weight."""
    prey = known_prey(offer.prey)
    return prey is not None and (not prey.weighed or offer.each_g is not None)


def old_stock(lots: tuple[Lot, ...], reading: Reading) -> Iterator[Finding]:
    """Frozen prey that is too old; insects are not frozen."""
    frozen = [lot for lot in lots if prey_named(lot.prey).frozen]
    for found in ages(frozen, reading.on, reading.rules):
        yield Finding("feeding.old", Level.NOTE, found.words, found.basis)


def short_stock(lots: tuple[Lot, ...], reading: Reading, ids: tuple[int, ...]) -> Iterator[Finding]:
    """Classes that will run out; only those that are ever kept in stock."""
    weeks = round(reading.rules.stock_weeks)
    planned = []
    for animal_id in ids:
        subject = reading.subject(animal_id, ask=False)
        if subject and subject.species.diet.has(*FROZEN) and subject.weighing:
            name = reading.book.animals[animal_id].label
            of = subjects_by_part(subject)
            planned += [forecast(name, p, reading.on, weeks, reading.rules) for p in of]
    needed = planned_counts(planned)
    kept = {c: n for c, n in needed.items() if prey_named(c).frozen}
    for found in shortages(lots, kept, weeks):
        basis = replace(found.basis, source=reading.rules.basis("stock_weeks").source)
        yield Finding("feeding.short", Level.LOOK_SOON, found.words, basis)
