"""When the next meal is due: from the last meal, a refusal, and the reasons to wait."""

from __future__ import annotations

import math
from datetime import date, timedelta

from warmside.api import Basis, Estimate, Unit
from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.care.stages import Stages, stages_words
from warmside.plugins.feeding.energy.rates import Span
from warmside.plugins.feeding.meals.records import Offer
from warmside.plugins.feeding.planning.body import held
from warmside.plugins.feeding.planning.rests import SNAKE
from warmside.plugins.feeding.planning.subject import Subject
from warmside.plugins.feeding.planning.waits import GRAVID_EATS, Wait

Window = tuple[date | None, date | None]
NONE_YET = "no meal on record yet: when did it last eat?"


def interval_of(subject: Subject, stages: Stages) -> Estimate:
    """The interval window in days, over all stages that are possible."""
    low, high = subject.species.interval(stages)
    days = f"{low:g}" if low == high else f"{low:g} to {high:g}"
    often = "daily" if (low, high) == (1, 1) else f"every {days} days"
    basis = Basis(f"{often} {stages_words(stages)}", subject.species.interval_source)
    usual = Estimate(None, low, high, Unit.DAYS, basis)
    if subject.weighing is not None and subject.body.is_over(subject.weighing.mass_g):
        return held(usual)
    return _often(usual) if subject.situation.is_gravid and subject.form != SNAKE else usual


def _often(usual: Estimate) -> Estimate:
    """The interval of a gravid lizard, tortoise or turtle: its short end, for she needs more."""
    rule = f"{usual.basis.rule}, at the short end while she is gravid"
    return Estimate(None, usual.low, usual.low, Unit.DAYS, Basis(rule, GRAVID_EATS))


def window(
    subject: Subject,
    interval: Estimate,
    reasons: tuple[Wait, ...],
    rested: date | None,
    day: date,
    rules: Rules,
) -> Window:
    """The first and the last day for the next meal; (None, None) while a wait is open.

    From the last meal eaten by the interval; after a refusal within the days of a retry, nor
    later than after the usual interval; never before its last rest was over (`rested`).
    """
    eaten = subject.last_meal
    usual = _usual(eaten, interval) if eaten else _unheard(subject, interval, rested, day)
    earliest, latest = _again(subject, interval, eaten, usual, rules)
    blocking = [w for w in reasons if w.blocks]
    if any(w.until is None for w in blocking):
        return None, None
    ends = ((w.until, w.forecast) for w in blocking if w.until)
    earliest = max([earliest, *(min(end, latest) if told else end for end, told in ends)])
    earliest = max(earliest, rested or earliest)
    return earliest, max(latest, earliest)


def _usual(eaten: Offer, interval: Estimate) -> tuple[date, date]:
    """From the last meal by the interval."""
    first, last = math.ceil(interval.low), math.floor(interval.high)
    return eaten.day + timedelta(days=first), eaten.day + timedelta(days=last)


def _unheard(
    subject: Subject, interval: Estimate, rested: date | None, day: date
) -> tuple[date, date]:
    """Of one without a meal on record: from the day on which it came.

    Where it was entered later, nothing is known of its meals before: it is asked about each day
    from then on, and is late once the longest interval passed without a meal.
    """
    if subject.entered is None:
        came = rested or subject.here_since or day
        return came, came
    first = max(subject.entered, rested or subject.entered)
    late = subject.entered + timedelta(days=math.floor(interval.high))
    return first, max(first, min(day, late))


def _again(
    subject: Subject,
    interval: Estimate,
    eaten: Offer | None,
    usual: tuple[date, date],
    rules: Rules,
) -> tuple[date, date]:
    """As it was, or the days of a retry where it refused last."""
    refused, (earliest, latest) = subject.last_refusal, usual
    if refused is None or (eaten and refused.day < eaten.day):
        return earliest, latest
    again, last = _retry(refused.day, subject.rests(rules).retry, (interval.low, interval.high))
    return (max(earliest, again) if eaten else again), max(latest, last)


def _retry(refused: date, retry: Span, interval: Span) -> tuple[date, date]:
    first, last = (min(days, usual) for days, usual in zip(retry, interval, strict=True))
    return refused + timedelta(days=round(first)), refused + timedelta(days=round(last))
