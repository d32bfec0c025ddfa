"""Reasons to wait with a meal or to make it smaller."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from msgspec import Struct

from warmside.api import Basis, Mark, Source
from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.meals.records import Offer
from warmside.plugins.feeding.planning.rests import SNAKE, Rests
from warmside.plugins.feeding.resting.period import Rest

# A slough's range is sure enough to wait from its first day on if it is no longer than so many
# times the days to wait before a slough; common practice, no source.
SURE_RANGES = 4
# So many days before the last meal of a winter rest it is said.
STOP_TOLD_DAYS = 21
# So long after hatching a young snake is not fed before its first slough.
FIRST_SHED_DAYS = 14
YOLK = Source("young snakes are fed after their first shed", Mark.COMMON_PRACTICE)
LAYS_SOON = (
    "more food and calcium until she stops eating by herself, and a place to dig; weak, straining "
    "or restless for long: a vet at once"
)
GRAVID_EATS = Source(
    "gravid lizards, tortoises and turtles eat more until shortly before laying",
    Mark.COMMON_PRACTICE,
)


class Situation(Struct, frozen=True):
    """What is going on with the animal; None and empty where nothing is known.

    `opaque_since` only while no slough followed; `shed` the last slough. `slough_expected`:
    earliest and latest day. `cooling`: first and last day of winter cooling, the last None while
    it is open; `rest` a planned winter rest. `told` is the word of a vet by which it is fed
    instead of by its plan; `hatched_here` only while no slough followed.
    """

    arrived: date | None = None
    moved: date | None = None
    opaque_since: date | None = None
    shed: date | None = None
    slough_expected: tuple[date, date] | None = None
    regurgitations: tuple[date, ...] = ()
    gravid_since: date | None = None
    laid: date | None = None
    cooling: tuple[date, date | None] | None = None
    rest: Rest | None = None
    told: Basis | None = None
    hatched_here: date | None = None

    @property
    def is_gravid(self) -> bool:
        """She carries eggs or young now."""
        since, laid = self.gravid_since, self.laid
        return since is not None and not (laid and laid >= since)


class Wait(Struct, frozen=True):
    """A reason: `blocks` the meal until a day (None: open), or cuts it to `percent`; or says so.

    A mere `forecast` moves day by day as long as it does not come true, so it never holds a meal
    back past the last day of its interval.
    """

    code: str
    words: str
    basis: Basis
    blocks: bool = True
    until: date | None = None
    percent: float = 100.0
    see_vet: bool = False
    forecast: bool = False

    def holds(self, day: date) -> bool:
        """The reason still stands on a day."""
        return not self.blocks or self.until is None or day < self.until


def waits(
    situation: Situation, offers: tuple[Offer, ...], day: date, rests: Rests
) -> tuple[Wait, ...]:
    """All reasons that hold on a day, the blocking ones first."""
    return standing(situation, offers, day, rests)[0]


def standing(
    situation: Situation, offers: tuple[Offer, ...], day: date, rests: Rests
) -> tuple[tuple[Wait, ...], date | None]:
    """The reasons that hold, the blocking ones first, and the last day on which a rest ended.

    None where none has ended. A plan for a day to come is no earlier than that, so that a calendar
    agrees with it.
    """
    known = list(_reasons(situation, offers, day, rests))
    if not known:
        return (), None
    held = sorted((w for w in known if w.holds(day)), key=lambda w: not w.blocks)
    over = [w.until for w in known if w.blocks and w.until and not w.forecast]
    return tuple(held), max((until for until in over if until <= day), default=None)


def _reasons(
    situation: Situation, offers: tuple[Offer, ...], day: date, rests: Rests
) -> Iterator[Wait]:
    """The reasons of the record, also those that are over by that day."""
    rules = rests.rules
    if situation.told is not None:
        yield Wait("in-treatment", situation.told.rule, situation.told)
    yield from _settling("arrived", situation.arrived, "arrival", rests, day)
    yield from _settling("moved", situation.moved, "move", rests, day)
    yield from _shed(situation, rests, day)
    yield from _opaque(situation, day, rests)
    yield from _regurgitation(situation, offers, day, rests)
    found = (
        _before_slough(situation, day, rests),
        _cooling(situation, day, rules),
        _rest(situation, day),
        _gravid(situation, rests),
        _first_shed(situation, offers, rests),
    )
    yield from (w for w in found if w)


def _settling(code: str, since: date | None, rest: str, rests: Rests, day: date) -> Iterator[Wait]:
    if since is None or since > day or not (days := getattr(rests, rest)):
        return
    until = _after(since, days)
    said = f"{code} on {since.isoformat()}: no food until {until.isoformat()}, let it settle"
    yield Wait(code, said, rests.basis(rest), until=until)


def _first_shed(situation: Situation, offers: tuple[Offer, ...], rests: Rests) -> Wait | None:
    """A snake that hatched here lives on its yolk until its first slough; one that eats, eats."""
    since = situation.hatched_here
    if since is None or rests.form != SNAKE or any(o.eaten for o in offers):
        return None
    until = _after(since, FIRST_SHED_DAYS)
    said = f"hatched on {since.isoformat()}: no food before its first shed"
    rule = f"{FIRST_SHED_DAYS} days at most from hatching to the first meal"
    return Wait("first-shed", said, Basis(rule, YOLK), until=until)


def _shed(situation: Situation, rests: Rests, day: date) -> Iterator[Wait]:
    since = situation.shed
    if since is None or since > day or not rests.slough:
        return
    until = _after(since, rests.slough)
    said = f"shed on {since.isoformat()}: food from {until.isoformat()} on"
    yield Wait("shed", said, rests.basis("slough"), until=until)


def _opaque(situation: Situation, day: date, rests: Rests) -> Iterator[Wait]:
    since = situation.opaque_since
    if since is None or day < since:
        return
    until, basis = _after(since, rests.opaque), rests.basis("opaque")
    if rests.opaque:
        said = f"eyes opaque since {since.isoformat()}: wait for the shed"
        yield Wait("opaque", said, basis, until=until)
    if not rests.opaque and (day - since).days <= rests.rules.opaque_days:
        said = f"opaque since {since.isoformat()}: offer food all the same, it may take less"
        yield Wait("opaque", said, basis, blocks=False)
    elif day >= until:
        said = f"opaque {(day - since).days} days ago and no shed recorded: look at skin and eyes"
        yield Wait("opaque", said, basis, blocks=False)


def _before_slough(situation: Situation, day: date, rests: Rests) -> Wait | None:
    if situation.slough_expected is None or situation.opaque_since or not rests.opaque:
        return None
    rules = rests.rules
    early, late = situation.slough_expected
    middle, basis = early + (late - early) / 2, rules.basis("before_slough_days")
    span = f"a shed is expected {early.isoformat()} to {late.isoformat()}"
    sure = (late - early).days <= SURE_RANGES * rules.before_slough_days
    ends = (early, middle) if sure else (middle,)
    if any(0 <= (d - day).days <= rules.before_slough_days for d in ends):
        said = f"{span}: wait for it, but not past the last day of the interval"
        until = middle + timedelta(days=1)
        return Wait("before-slough", said, basis, until=until, forecast=True)
    if early <= day <= late:
        return Wait("before-slough", f"{span}: it may refuse", basis, blocks=False)
    return None


def _regurgitation(
    situation: Situation, offers: tuple[Offer, ...], day: date, rests: Rests
) -> Iterator[Wait]:
    past = sorted(d for d in situation.regurgitations if d <= day)
    if not past:
        return
    rules, last = rests.rules, past[-1]
    small, said = rules.regurgitation_percent, f"regurgitated on {last.isoformat()}"
    kept = sum(1 for o in offers if not o.refused and last < o.day <= day)
    repeated = len(past) > 1 and (last - past[-2]).days <= rules.regurgitation_repeat_days
    if not kept and repeated and (day - last).days <= rules.regurgitation_repeat_days:
        both = f"regurgitated on {past[-2].isoformat()} and {last.isoformat()}"
        basis, words = rules.basis("regurgitation_repeat_days"), "see a vet before the next meal"
        yield Wait("regurgitated", f"{both}: {words}", basis, percent=small, see_vet=True)
        return
    until = _after(last, rests.regurgitation)
    if not kept:
        words, basis = f"{said}: rest until {until.isoformat()}", rests.basis("regurgitation")
        yield Wait("regurgitated", f"{words}, then smaller", basis, until=until, percent=small)
    if kept < rules.regurgitation_meals and (kept or day >= until):
        words, basis = f"{said}, {_kept(kept)}", rules.basis("regurgitation_percent")
        yield Wait("regurgitated", f"{words}: smaller for now", basis, False, percent=small)


def _kept(meals: int) -> str:
    return f"{meals} meal{'' if meals == 1 else 's'} kept since"


def _cooling(situation: Situation, day: date, rules: Rules) -> Wait | None:
    if situation.cooling is None:
        return None
    start, end = situation.cooling
    warm = _after(end, rules.cooling_after_days) if end else None
    if day < _after(start, -rules.cooling_before_days):
        return None
    if day < start:
        said = f"cooling begins on {start.isoformat()}: no meal before it, the gut must be empty"
        return Wait("cooling", said, rules.basis("cooling_before_days"), until=warm)
    until = f"until {warm.isoformat()}" if warm else "until it has been warm again for a while"
    said = f"cooled for winter since {start.isoformat()}: no meal {until}"
    return Wait("cooling", said, rules.basis("cooling_after_days"), until=warm)


def _rest(situation: Situation, day: date) -> Wait | None:
    """A planned winter rest; once it is cooled, the cooling is the reason."""
    rest = situation.rest
    if rest is None or (situation.cooling and situation.cooling[0] >= rest.stop):
        return None
    basis = Basis("winter rest as the keeper planned it", events=(rest.event,))
    if rest.covers(day):
        said = f"winter rest planned: no food from {rest.stop} to {rest.food}"
        return Wait("rest", said, basis, until=rest.food)
    if 0 < (rest.stop - day).days <= STOP_TOLD_DAYS:
        said = f"a winter rest is planned: the last meal before {rest.stop}"
        return Wait("rest", said, basis, blocks=False)
    return None


def _gravid(situation: Situation, rests: Rests) -> Wait | None:
    since, rules = situation.gravid_since, rests.rules
    if since is None or not situation.is_gravid:
        return None
    said = f"gravid since {since.isoformat()}"
    if rests.form == SNAKE:
        said += ": smaller meals or none; refusing is usual while she is bright and active"
        basis = rules.basis("gravid_percent")
        return Wait("gravid", said, basis, False, percent=rules.gravid_percent)
    return Wait("gravid", f"{said}: {LAYS_SOON}", Basis("gravid", GRAVID_EATS), False)


def _after(day: date, days: float) -> date:
    return day + timedelta(days=round(days))
