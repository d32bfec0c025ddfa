"""One animal's weight in words and figures: parts of answers, the report section, label lines."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from msgspec.structs import replace

from warmside.api import (
    Answer,
    Basis,
    Fact,
    Kind,
    LabelLine,
    Level,
    Part,
    Section,
    Tone,
    Unit,
    Words,
    format_quantity,
)
from warmside.plugins.weight.course.ages import MOST_UNSURE_DAYS
from warmside.plugins.weight.course.digestion import digestion_days
from warmside.plugins.weight.course.life_history import NO_OPEN_CURVE, life_history
from warmside.plugins.weight.course.sign import WeightSign
from warmside.plugins.weight.course.standing import Standing
from warmside.plugins.weight.findings import doubt_words
from warmside.plugins.weight.lms.lms import Score
from warmside.plugins.weight.telling.chart import OwnGrowth, chart_of
from warmside.plugins.weight.telling.overview import overview

REPORT_ORDER = 200
AHEAD_DAYS = 30
TAIL_TITLE = "tail rule (beyond 3 SD)"


def shown(it: Standing) -> Answer:
    """One animal: mass, centile or why there is none, trend, signs and doubts."""
    return Answer(f"Weight of {it.weights.animal.label}, as of {it.on}", tuple(parts_of(it)))


def parts_of(it: Standing) -> Iterator[Part]:
    """The facts, then what was found."""
    yield from _facts(it)
    if len(it.weights.sound):
        for sign in it.signs:
            yield sign_words(sign)
    for doubt in it.doubts:
        yield Words(f"In doubt: {doubt_words(it.weights, doubt, it.limits.display)}", Tone.CAUTION)
    yield from _why_no_centile(it)


def _facts(it: Standing) -> Iterator[Part]:
    if not len(it.weights.sound):
        yield Words("no weight on record that can be relied on", Tone.CAUTION)
        return
    yield from _mass_facts(it)
    meal = it.weights.unknown_meal(_digestion(it))
    if meal is not None:
        day = date.fromordinal(int(meal))
        yield Words(f"it may still hold the meal of {day}, whose mass is not on record")
    yield from _centile_facts(it)
    yield from _trend_facts(it)


def sign_words(sign: WeightSign) -> Words:
    """A sign as a paragraph."""
    tone = Tone.PLAIN if sign.level is Level.NOTE else Tone.CAUTION
    return Words(f"{sign.words} ({sign.level}; {sign.source.text}, {sign.source.mark})", tone)


def _mass_facts(it: Standing) -> Iterator[Fact]:
    those, less = it.weights.sound, it.weights.course.weighings
    yield Fact("mass", "last weight", those.masses_g[-1], Unit.MASS)
    if less.masses_g[-1] < those.masses_g[-1]:
        rule = f"less the meals of the {_digestion(it):g} days before it"
        basis = Basis(rule, events=those.events[-1:])
        yield Fact("mass_without_meal", "without its meal", less.masses_g[-1], Unit.MASS, basis)
    yield Fact("weighed", "weighed on", it.last_day, Kind.DATE)
    hatched = it.weights.hatched
    if hatched is not None:
        yield Fact("age", "age then", float(round(those.days[-1] - hatched)), Unit.AGE)
    stage = it.weights.course.stage
    yield Fact("life_stage", "life stage", stage and stage.value, missing="not known")


def _digestion(it: Standing) -> float:
    return digestion_days(it.weights.animal.species.group, it.limits)


def _centile_facts(it: Standing) -> Iterator[Fact]:
    if it.reference is None:
        return
    source = it.reference.source
    yield Fact("reference", "reference", f"{source.text} ({source.mark})")
    if it.score is None:
        return
    z, centile, tail = score_facts(it.score)
    yield from (z, replace(centile, value=round(it.score.centile, 2)), tail)
    usual = it.channel
    if usual is not None:
        rule = "median of its weighings in the year before the last month"
        basis = Basis(rule, events=usual.events[:-1])
        yield Fact(
            "usual_centile", "usual centile", round(usual.usual.centile, 2), Unit.RATIO, basis
        )


def score_facts(found: Score) -> tuple[Fact, Fact, Fact]:
    """z, centile and whether the tail rule made them."""
    return (
        Fact("z", "z", found.z, Unit.RATIO),
        Fact("centile", "centile (0 to 100)", found.centile, Unit.RATIO),
        Fact("tail_rule", TAIL_TITLE, found.tail_rule, Kind.YESNO),
    )


def _trend_facts(it: Standing) -> Iterator[Fact]:
    now, ahead = it.expected(), it.expected(AHEAD_DAYS)
    if now is not None and ahead is not None and not it.gone():
        yield Fact("expected", "expected now", now, Unit.MASS)
        yield Fact("expected_ahead", f"in {AHEAD_DAYS} days", ahead, Unit.MASS)
    if adults := it.adults():
        yield Fact("species_adult", "usual adults", adults, Unit.MASS)
    row = life_history(it.weights.animal.species.scientific)
    if row is not None:
        basis = Basis("for orientation, no percentile", row.source)
        yield Fact("species_hatchling", "hatchlings, mean", row.hatchling_g, Unit.MASS, basis)


def _why_no_centile(it: Standing) -> Iterator[Words]:
    hatched = it.weights.animal.hatched
    if it.reference is None:
        yield Words(
            f"no centile: {NO_OPEN_CURVE}: warmside weight reference build, import or assign",
            Tone.HINT,
        )
    elif it.weights.hatched is None:
        known = hatched.text if hatched else "not at all"
        yield Words(
            f"no centile: the date of hatching is known {known}, and must be known to "
            f"{MOST_UNSURE_DAYS} days: warmside animal change {it.weights.animal.code} --hatched …",
            Tone.HINT,
        )
    elif len(it.weights.sound) and it.score is None:
        ages = it.reference.curve.ages_days
        first, last = (format_quantity(a, Unit.AGE, it.limits.display) for a in (ages[0], ages[-1]))
        yield Words(f"no centile: the reference covers ages of {first} to {last}", Tone.HINT)


def section_of_animal(it: Standing, own: OwnGrowth) -> Iterator[Section]:
    """The weight in an animal's report, which has the findings apart; nothing unweighed."""
    if len(it.weights.all):
        yield Section("Weight", (*_facts(it), *chart_of(it, own)), REPORT_ORDER)


def section_of_enclosure(found: Sequence[Standing]) -> Iterator[Section]:
    """The weights of those that live there, a line each; nothing where none was weighed."""
    if found:
        yield Section("Weight", (overview(found),), REPORT_ORDER)


def label_lines(it: Standing) -> Iterator[LabelLine]:
    """The last weight with its day, and the centile."""
    if not len(it.weights.sound):
        return
    mass = format_quantity(it.weights.sound.masses_g[-1], Unit.MASS, it.limits.display)
    yield LabelLine("weight.mass", f"{mass} on {it.last_day}", 200)
    if it.score is not None and it.reference is not None:
        text = f"centile {it.score.centile:.0f} of {it.reference.stored.name}"
        yield LabelLine("weight.centile", text, 210)
