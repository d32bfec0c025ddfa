"""The plan of one animal in full, as parts of an answer."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from msgspec.structs import replace

from warmside.api import (
    OWN_RECORDS,
    Basis,
    Cell,
    Column,
    Estimate,
    Fact,
    Kind,
    Mark,
    Part,
    Source,
    Table,
    Tone,
    Unit,
    Words,
)
from warmside.plugins.feeding.care.cautions import (
    NO_HANDLING,
    Caution,
    cautions,
    in_brief,
    left_alone,
)
from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.care.stages import stages_said
from warmside.plugins.feeding.condition.refusals import cost_words
from warmside.plugins.feeding.meals.records import last_meal
from warmside.plugins.feeding.planning.fit import Fit
from warmside.plugins.feeding.planning.next_meal import Plan
from warmside.plugins.feeding.planning.subject import Subject
from warmside.plugins.feeding.planning.whole import whole_plan
from warmside.plugins.feeding.planning.window import NONE_YET
from warmside.plugins.feeding.prey.classes import Prey
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.reading.cases import cost_so_far
from warmside.plugins.feeding.telling.whole import diet_table

FIT_COLUMNS = (
    Column("prey", "prey", Kind.CODE, text=False),
    Column("name", "prey"),
    Column("count_low", "from", Unit.COUNT),
    Column("count_high", "to", Unit.COUNT),
    Column("each", "one weighs", Unit.MASS),
    Column("total", "together", Unit.MASS),
    Column("width", "wide", Unit.LENGTH),
)
WAIT_COLUMNS = (
    Column("code", "reason", text=False),
    Column("until", "until", Kind.DATE),
    Column("percent", "meal", Unit.PERCENT),
    Column("words", "what is known"),
    Column("blocks", "no meal", Kind.YESNO, text=False),
    Column("see_vet", "see a vet", Kind.YESNO, text=False),
    Column("rule", "rule", text=False),
    Column("source", "source", text=False),
    Column("mark", "mark", text=False),
)
GEOMETRY = Source("a cylinder of 1 g per ml; good to about 15 %", Mark.COMMON_PRACTICE)


def no_row(species: str) -> str:
    """What is said of a species that the plugin cannot feed."""
    return (
        f"no feeding row for {species} nor for its group: nothing can be said of its meals; "
        "ask a vet or its breeder, then set its diet: warmside feeding diet set"
    )


def parts(reading: Reading, animal_id: int, *, brief: bool = False) -> tuple[Part, ...]:
    """The plan of one animal in full, cautions last; in a report these are `brief`."""
    animal = reading.book.animals[animal_id]
    subject = reading.subject(animal_id)
    if subject is None:
        return (Words(no_row(animal.species.scientific), Tone.CAUTION),)
    eaten = _last_meal(reading, animal_id)
    last = Fact("last_meal", "last meal", eaten, Kind.DATE, missing="none on record")
    minded = cautions(subject.species, animal.species.group)
    see = f"warmside feeding plan {animal.code}"
    said = briefly(minded, see) if brief else cautioned(minded)
    if why := _unplanned(reading, subject, animal_id):
        diet = Fact("diet", "eats", subject.species.diet.words or None)
        here = reading.where(animal_id).custody.is_here
        return diet, last, Words(f"{why} no meal is planned for it"), *(said if here else ())
    plans = whole_plan(subject, reading.on, reading.rules)
    found = plans[0].plan
    own = reading.own.get(animal_id)
    mine = (Fact("own", "set for it", own.words, Kind.LIST),) if own else ()
    facts = (
        *_when(reading.on, subject, found),
        *mine,
        *_what(found),
        *_stage(subject),
        *_retry(subject, reading.rules),
        last,
    )
    return (
        *facts,
        *diet_table(plans, reading.rules),
        *_tables(found, plans[0].subject.species.part.name if len(plans) > 1 else "meal"),
        *(
            _fits_table(p.plan, p.key, p.subject.species.part.name)
            for p in plans[1:]
            if p.plan.fits
        ),
        *map(Words, (*_asked(subject, animal.code), *_said(found), *_handled(subject))),
        *_fast(reading, animal_id, subject),
        *said,
    )


def _unplanned(reading: Reading, subject: Subject, animal_id: int) -> str:
    """Why no meal is planned: it is not here, or is fed as a vet says; empty where one is."""
    custody = reading.where(animal_id).custody
    if not custody.is_here:
        return f"not here ({custody}):"
    return f"{subject.situation.told.rule};" if subject.situation.told else ""


def _fast(reading: Reading, animal_id: int, subject: Subject) -> Iterator[Part]:
    """What a fast has cost so far, beside what it should, with how that is reckoned."""
    cost = cost_so_far(reading, animal_id, subject)
    if cost is not None:
        yield Words(f"{cost_words(cost, reading.rules)}; no measure of health")
        yield Fact("fast_loss", "such a fast costs", cost.expected, Unit.MASS)


def _retry(subject: Subject, rules: Rules) -> Iterator[Fact]:
    """After how many days it is offered food again, where it refused last."""
    eaten, refused = subject.last_meal, subject.last_refusal
    if refused and (eaten is None or refused.day >= eaten.day):
        rests = subject.rests(rules)
        days = Estimate(None, *rests.retry, Unit.DAYS, rests.basis("retry"))
        yield Fact("retry", "offer again after", days, Unit.DAYS)


def _last_meal(reading: Reading, animal_id: int) -> date | None:
    eaten = last_meal(reading.meals(animal_id).offers)
    return eaten.day if eaten else None


def _when(on: date, subject: Subject, found: Plan) -> Iterator[Fact]:
    yield Fact("due", "due now", found.is_due(on), Kind.YESNO)
    title = "due since" if found.due_from and found.due_from < on else "next meal from"
    yield Fact("due_from", title, found.due_from, Kind.DATE, _never(subject))
    title = "and overdue since" if found.due_by and found.due_by < on else "and by"
    yield Fact("due_by", title, found.due_by, Kind.DATE)
    yield Fact("interval", "interval", found.interval, Unit.DAYS)


def _never(subject: Subject) -> Basis | None:
    """Why it is due where it has no meal on record."""
    if last_meal(subject.offers) or subject.here_since is None:
        return None
    return Basis(f"no meal on record since it came on {subject.here_since}", OWN_RECORDS)


def _asked(subject: Subject, code: str) -> Iterator[str]:
    """When it ate last, where that is not on record, and how to say it."""
    if subject.last_meal is None:
        yield f"{NONE_YET} say it with its day: warmside record fed {code} --at DAY"


def _handled(subject: Subject) -> Iterator[str]:
    """That it is left alone after a meal, where it is to be."""
    if left_alone(subject.species):
        yield NO_HANDLING.words


def _what(found: Plan) -> Iterator[Fact]:
    if found.mass:
        yield Fact("mass", "mass", found.mass.mass, Unit.MASS)
        yield Fact("mass_age", "age of the weight", found.mass.age_days, Unit.DAYS)
        yield Fact("mass_stale", "the weight is stale", found.mass.stale, Kind.YESNO)
    if found.meal:
        yield Fact("meal", "meal", found.meal, Unit.MASS)
    if found.dust:
        yield Fact("dust", "dust with", found.dust.name, basis=_dusting(found))


def _stage(subject: Subject) -> Iterator[Fact]:
    """The life stage, or those that are possible, and why."""
    if subject.staged is not None and subject.species.has_stages:
        yield Fact("stage", "life stage", stages_said(subject.stages), basis=subject.staged.basis)


def _dusting(found: Plan) -> Basis:
    assert found.dust is not None
    if found.dusting is None:
        return Basis("dusting", found.dust.source)
    light = "with UVB light" if found.dusting.uvb else "without UVB light"
    return Basis(f"{light}: {found.dusting.words}", found.dusting.source)


def _tables(found: Plan, name: str) -> Iterator[Table]:
    if found.fits:
        yield _fits_table(found, "", name)
    if found.waits:
        yield _waits_table(found)


def _waits_table(found: Plan) -> Table:
    """The reasons; a single one as a sentence."""
    title, rows = "Reasons to wait or feed less", tuple(_wait_rows(found))
    if len(rows) > 1:
        return Table("waits", WAIT_COLUMNS, rows, title)
    untold = tuple(replace(c, text=False) for c in WAIT_COLUMNS)
    return Table("waits", untold, rows, empty=found.waits[0].words)


def _fits_table(found: Plan, key: str, name: str) -> Table:
    rows = tuple(_fit_row(f) for f in found.fits)
    title = f"What makes up the {name}, the first choice first"
    return Table(f"fits_{key}".rstrip("_"), FIT_COLUMNS, rows, title)


def _fit_row(fit: Fit) -> tuple[Cell, ...]:
    prey = fit.prey
    low, high = (prey.width_mm(g) for g in fit.each_g)
    width = Estimate(None, low, high, Unit.LENGTH, Basis("width from mass", GEOMETRY))
    return (
        prey.code,
        prey.name,
        fit.count_low,
        fit.count_high,
        _grams(prey, fit.each_g),
        _grams(prey, fit.total_g),
        None if prey.weighed else width,
    )


def _grams(prey: Prey, span: tuple[float, float]) -> Estimate:
    return Estimate(None, *span, Unit.MASS, Basis("mass class", prey.mass_source))


def _wait_rows(found: Plan) -> Iterator[tuple[Cell, ...]]:
    for wait in found.waits:
        source = wait.basis.source
        yield (
            wait.code,
            wait.until,
            wait.percent,
            wait.words,
            wait.blocks,
            wait.see_vet,
            wait.basis.rule,
            source.text,
            source.mark.value,
        )


def _said(found: Plan) -> tuple[str, ...]:
    """What the plan says beyond the reasons, which stand in their table."""
    told = {w.words for w in found.waits}
    return tuple(w for w in found.words if w not in told)


def cautioned(of: Sequence[Caution]) -> tuple[Words, ...]:
    """Cautions as words."""
    return tuple(Words(c.words, Tone.CAUTION) for c in of)


def briefly(of: Sequence[Caution], command: str) -> tuple[Words, ...]:
    """Cautions for a report, in one paragraph; the command gives each in full."""
    return (Words("; ".join((*in_brief(of), f"in full: {command}")), Tone.CAUTION),)
