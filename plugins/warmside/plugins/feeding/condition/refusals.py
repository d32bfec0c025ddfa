"""Whether refused meals are worth a note, a look or a vet.

Judged by weight loss, by its own past, by the season and the note of its species, and by whether it
ever ate here. One refusal is nothing, and a fast with a known reason is no finding while the weight
tells of no harm.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from enum import StrEnum
from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

from warmside.api import Basis, Source, counted
from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.condition.fasting import FastCost
from warmside.plugins.feeding.condition.loss import Loss
from warmside.plugins.feeding.condition.season import Season, UsualFast, vet_days
from warmside.plugins.feeding.energy.rates import Span
from warmside.plugins.feeding.meals.records import Offer, Weighing
from warmside.plugins.feeding.planning.waits import Wait

# The same time of year: within so many days of the date a year ago or two.
SEASON_DAYS = 30
# So many refusals of one that never ate here are worth a look.
NEVER_ATE = 3
# So many in a row, over half of the days that go to a vet, are worth a note.
WORTH_A_NOTE = 3
# Scale and gut move the weight by so much of it: common practice, no source.
NOISE = 0.02


class Level(StrEnum):
    """What the keeper should do."""

    NOTE = "note"
    SOON = "look soon"
    VET = "see a vet"


class Judgement(Struct, frozen=True):
    """A streak of refusals or a loss of mass, judged."""

    level: Level
    streak: int
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

    `stage` is None where it is not known; `form` the body form; `season` what is usual for the
    species; `since` the day on which it came; `weighed` the newest weighing; `cost` what the fast
    has cost. `loss_is_told`: another plugin speaks on the loss, so it is no finding here.
    `warm_since` is the day on which a winter cooling ended, whose days are no fast.
    """

    offers: Sequence[Offer]
    lost: Loss | None
    reasons: Sequence[Wait]
    interval: Span
    stage: str | None
    form: str = "snake"
    sex: str = "unknown"
    season: Season | None = None
    since: date | None = None
    weighed: Weighing | None = None
    cost: FastCost | None = None
    loss_is_told: bool = False
    warm_since: date | None = None

    @property
    def is_young(self) -> bool:
        """Hatchling or juvenile: its own past and the season are no comfort."""
        return self.stage in ("hatchling", "juvenile")

    def eaten(self, day: date) -> date | None:
        """The day on which it last ate; None where nothing is on record."""
        return max((o.day for o in self.offers if not o.refused and o.day <= day), default=None)

    def fasting(self, day: date) -> int | None:
        """Days since something was eaten; None where nothing is on record."""
        eaten = self.eaten(day)
        return (day - eaten).days if eaten else None

    def fasting_awake(self, day: date) -> int:
        """Days without food that count: since it ate, or since winter cooling ended."""
        since = [d for d in (self.eaten(day), self.warm_since) if d is not None and d <= day]
        return (day - max(since)).days if since else 0

    def usual_fast(self, day: date) -> UsualFast | None:
        """The fast that is usual for its species, sex and stage at this time of year."""
        first = self.eaten(day) or self.since or day
        days = [first + timedelta(days=n) for n in range(0, (day - first).days + 1, 7)]
        fasts = self.season.fasts if self.season else ()
        return next((f for f in fasts if f.is_of(self.sex, self.stage) and f.covers(days)), None)

    def vet_days(self) -> tuple[int, Source]:
        """Days without food, out of season, that go to a vet."""
        days, source = vet_days(self.form, self.stage)
        return max(days, round(2 * self.interval[1])), source

    def allowed_days(self, day: date) -> float:
        """The fast that is no surprise: till the vet's day, in its season, or as long as before."""
        days, usual = self.vet_days()[0], self.usual_fast(day)
        own = None if self.is_young else longest_fast(self.offers)
        return max(days, own or 0, 7 * usual.weeks[1] if usual else 0)

    def known_reason(self, day: date) -> str:
        """A reason of the context, the season or its past for refusing; empty without one."""
        for wait in self.reasons:
            if not wait.see_vet:
                return f"a known reason: {wait.words}"
        if self.usual_fast(day):
            return "usual for its species at this time of year"
        season = not self.is_young and refused_this_season(self.offers, day)
        return "it refused at this time of an earlier year too" if season else ""

    def is_weighed(self, day: date, rules: Rules) -> bool:
        """A weighing is fresh enough to judge by: of young ones a fortnight old at most."""
        most = 14 if self.is_young else rules.fresh_days
        return self.weighed is not None and (day - self.weighed.day).days <= most


def judge(case: Case, day: date, rules: Rules) -> Judgement | None:
    """The judgement on a day; None where nothing has to be said."""
    refused = streak([o for o in case.offers if o.day <= day])
    known = replace(case, lost=None) if case.loss_is_told else case
    found = _by_loss(known, refused, day, rules) or _by_fast(case, refused, day, rules)
    if found is None:
        return None
    level, why, source = found
    lost = known.lost
    events = (*(o.event for o in refused if o.event), *(lost.events if lost else ()))
    told = _told(refused, case.fasting(day))
    said = (told, lost.words if lost else "", why, cost_words(case.cost, rules))
    words = "; ".join(w for w in said if w)
    return Judgement(level, len(refused), words, Basis(why, source, events))


def cost_words(cost: FastCost | None, rules: Rules) -> str:
    """`expected loss by now 100 to 140 g, seen 70 g`; empty where it cannot be said."""
    if cost is None:
        return ""
    low, high = rules.grams(cost.expected.low, 2), rules.grams(cost.expected.high, 2)
    same = low.split()[-1] == high.split()[-1]
    span = f"{low.split()[0] if same else low} to {high}"
    seen = f"seen {rules.grams(cost.seen_g, 2)}" if cost.seen_g > 0 else "none seen"
    return f"expected loss in {counted(cost.days, 'day')} without food {span}, {seen}"


def is_costly(cost: FastCost | None) -> bool:
    """More mass was lost than the fast costs, beyond what scale and gut may do."""
    return cost is not None and cost.seen_g - NOISE * cost.first.mass_g > cost.expected.high


Found = tuple[Level, str, Source]


def _by_loss(case: Case, refused: Sequence[Offer], day: date, rules: Rules) -> Found | None:
    lost, source = case.lost, rules.basis("acute_loss_percent").source
    if lost and lost.reaches(rules):
        acute, chronic = rules.acute_loss_percent, rules.chronic_loss_percent
        limits = f"a loss of {acute:g} % within weeks or {chronic:g} % over months needs a vet"
        return Level.VET, limits, source
    excused = case.cost is not None and not is_costly(case.cost) and case.known_reason(day)
    if lost and lost.reaches(rules, 0.5) and not excused:
        weigh = "over half of the loss that goes to a vet"
        return Level.SOON, f"{weigh}: weigh weekly, look at warmth and hides", source
    return None


def _by_fast(case: Case, refused: Sequence[Offer], day: date, rules: Rules) -> Found | None:
    if not refused:
        return None
    vet = next((w for w in case.reasons if w.see_vet), None)
    if vet is not None:
        return Level.VET, vet.words, vet.basis.source
    days, source = case.vet_days()
    if case.fasting(day) is None:
        return _never_ate(case, refused, day)
    fasting = case.fasting_awake(day)
    if is_costly(case.cost) and not case.loss_is_told:
        assert case.cost is not None
        why = "it lost more than such a fast costs: look at warmth and water, and ask a vet"
        return Level.SOON, why, case.cost.expected.basis.source
    if len(refused) == 1 and fasting <= 2 * days:
        return None  # it was offered food once since it ate: one refusal is no finding
    if fasting > case.allowed_days(day):
        why = f"{days} days without food go to a vet: look at warmth, light and hides first"
        return Level.SOON, why, source
    known = case.known_reason(day)
    if fasting > days and not case.is_weighed(day, rules):
        return Level.NOTE, f"{known or 'a long fast'}; weigh it, the weight decides", source
    if len(refused) >= WORTH_A_NOTE and 2 * fasting > days and not known:
        weighed = case.is_weighed(day, rules)
        return Level.NOTE, "its weight holds" if weighed else "weigh it, it decides", source
    return None


def _never_ate(case: Case, refused: Sequence[Offer], day: date) -> Found | None:
    days, source = case.vet_days()
    here = (day - (case.since or refused[0].day)).days
    if len(refused) < NEVER_ATE and here <= days:
        return None
    ask = "has never eaten here: ask the breeder what it ate, how and when"
    if here > days:
        return Level.SOON, f"{ask}; {here} days without food go to a vet now", source
    return Level.SOON, f"{ask}; a vet if it has not eaten {days} days after it came", source


def _told(refused: Sequence[Offer], fasting: int | None) -> str:
    if not refused:
        return ""
    times = "once" if len(refused) == 1 else f"{len(refused)} times in a row"
    eaten = (
        "nothing eaten on record" if fasting is None else f"last ate {counted(fasting, 'day')} ago"
    )
    return f"refused {times}, {eaten}"
