"""Whether refused meals are worth a note, a look or a vet.

Judged above all by weight loss, then against the animal's own history, season and situation.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from enum import StrEnum
from itertools import pairwise

from msgspec import Struct

from warmside.api import Basis
from warmside.plugins.feeding.care.diets import Stage
from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.condition.loss import Loss
from warmside.plugins.feeding.energy.rates import Span
from warmside.plugins.feeding.meals.records import Offer
from warmside.plugins.feeding.planning.waits import Wait

# The same time of year: within so many days of the date a year ago or two.
SEASON_DAYS = 30


class Level(StrEnum):
    """What the keeper should do."""

    NOTE = "note"
    SOON = "look soon"
    VET = "see a vet"


class Judgement(Struct, frozen=True):
    """A streak of refusals or a loss of mass, judged."""

    level: Level
    streak: int
    fasting_days: int | None
    longest_own_fast_days: int | None
    words: str
    basis: Basis


def streak(offers: Sequence[Offer]) -> tuple[Offer, ...]:
    """The refused offers since something was last eaten, oldest first."""
    refused = list[Offer]()
    for offer in sorted(offers, key=lambda o: o.day, reverse=True):
        if not offer.refused:
            break
        refused.append(offer)
    return tuple(reversed(refused))


def longest_fast(offers: Sequence[Offer]) -> int | None:
    """The longest gap in days between two meals eaten; None with fewer than two."""
    days = sorted(o.day for o in offers if not o.refused)
    gaps = [(later - sooner).days for sooner, later in pairwise(days)]
    return max(gaps, default=None)


def refused_this_season(offers: Sequence[Offer], day: date) -> bool:
    """It refused at the same time of an earlier year."""
    return any(
        o.refused and years >= 1 and abs((day - o.day).days - round(years * 365.25)) <= SEASON_DAYS
        for o in offers
        for years in (round((day - o.day).days / 365.25),)
    )


class Case(Struct, frozen=True):
    """What is judged: recent offers, the loss, the reasons of the context, interval in days.

    `stage` is None where the weight is unknown.
    """

    offers: Sequence[Offer]
    lost: Loss | None
    reasons: Sequence[Wait]
    interval: Span
    stage: Stage | None

    def fasting(self, day: date) -> int | None:
        """Days since something was eaten; None where nothing is on record."""
        eaten = max((o.day for o in self.offers if not o.refused and o.day <= day), default=None)
        return (day - eaten).days if eaten else None

    def allowed_days(self, rules: Rules) -> float:
        """The fast that is no surprise: some usual intervals, or its own longest if it is grown."""
        usual, own = rules.fast_intervals * self.interval[1], longest_fast(self.offers)
        return usual if own is None or self.stage is Stage.HATCHLING else max(usual, own)

    def known_reason(self, day: date) -> str:
        """A reason of the context or the season for refusing; empty without one."""
        for wait in self.reasons:
            if not wait.see_vet:
                return f"a known reason: {wait.words}"
        season = refused_this_season(self.offers, day)
        return "it refused at this time of an earlier year too" if season else ""


def judge(case: Case, day: date, rules: Rules) -> Judgement | None:
    """The judgement on a day, None where there is neither a streak nor a loss to speak of."""
    lost, refused = case.lost, streak([o for o in case.offers if o.day <= day])
    if not refused and not (lost and lost.reaches(rules, 0.5)):
        return None
    level, why = _by_loss(lost, rules) or _by_fast(case, refused, day, rules)
    events = (*(o.event for o in refused if o.event), *(lost.events if lost else ()))
    source = rules.basis("acute_loss_percent" if level is Level.VET else "fast_intervals").source
    fasting = case.fasting(day)
    said = (_told(refused, fasting), lost.words if lost else "", why)
    return Judgement(
        level,
        len(refused),
        fasting,
        longest_fast(case.offers),
        "; ".join(w for w in said if w),
        Basis(why, source, events),
    )


def _by_loss(lost: Loss | None, rules: Rules) -> tuple[Level, str] | None:
    if lost and lost.reaches(rules):
        acute, chronic = rules.acute_loss_percent, rules.chronic_loss_percent
        limits = f"a loss of {acute:g} % within weeks or {chronic:g} % over months needs a vet"
        return Level.VET, limits
    if lost and lost.reaches(rules, 0.5):
        return Level.SOON, "over half of the loss that goes to a vet: weigh weekly"
    return None


def _by_fast(case: Case, refused: Sequence[Offer], day: date, rules: Rules) -> tuple[Level, str]:
    fasting, known = case.fasting(day), case.known_reason(day)
    if any(w.see_vet for w in case.reasons):
        return Level.VET, next(w.words for w in case.reasons if w.see_vet)
    if fasting is None and case.stage is Stage.HATCHLING and len(refused) > 2:
        return Level.SOON, "a hatchling that has never eaten here: ask the breeder or a vet"
    unweighed = case.lost is None or case.lost.last.day < refused[0].day
    too_long = fasting is not None and fasting > case.allowed_days(rules)
    if too_long and (unweighed or not known):
        return Level.SOON, "longer than its own fasts and usual intervals: weigh it and look"
    if unweighed:
        return Level.NOTE, f"{known or 'no reason known'}; weigh it, the weight decides"
    return Level.NOTE, known or "its weight holds"


def _told(refused: Sequence[Offer], fasting: int | None) -> str:
    if not refused:
        return ""
    times = "once" if len(refused) == 1 else f"{len(refused)} times in a row"
    eaten = "nothing eaten on record" if fasting is None else f"last ate {fasting} days ago"
    return f"refused {times}, {eaten}"
