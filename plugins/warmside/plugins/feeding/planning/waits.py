"""Reasons to wait with a meal or to make it smaller."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from warmside.api import Basis
from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.meals.records import Offer

# A slough's range is sure enough to wait from its first day on if it is no longer than so many
# times the days to wait before a slough; common practice, no source.
SURE_RANGES = 4


@dataclass(frozen=True, slots=True)
class Situation:
    """What is going on with the animal; None and empty where nothing is known.

    `opaque_since` only while no slough followed. `slough_expected`: earliest and latest day.
    `cooling`: first and last day of winter cooling, the last None while it is open.
    """

    arrived: date | None = None
    moved: date | None = None
    opaque_since: date | None = None
    slough_expected: tuple[date, date] | None = None
    regurgitations: tuple[date, ...] = ()
    gravid_since: date | None = None
    laid: date | None = None
    cooling: tuple[date, date | None] | None = None


@dataclass(frozen=True, slots=True)
class Wait:
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


def waits(
    situation: Situation, offers: tuple[Offer, ...], day: date, rules: Rules
) -> tuple[Wait, ...]:
    """All reasons that hold on a day, the blocking ones first."""
    found = (
        _settling("arrived", situation.arrived, rules.arrival_days, "arrival_days", day, rules),
        _settling("moved", situation.moved, rules.move_days, "move_days", day, rules),
        _opaque(situation, day, rules),
        _before_slough(situation, day, rules),
        _regurgitation(situation, offers, day, rules),
        _cooling(situation, day, rules),
        _gravid(situation, rules),
    )
    return tuple(sorted((w for w in found if w), key=lambda w: not w.blocks))


def _settling(
    code: str, since: date | None, days: float, rule: str, day: date, rules: Rules
) -> Wait | None:
    if since is None or not since <= day < _after(since, days):
        return None
    until = _after(since, days)
    said = f"{code} on {since.isoformat()}: leave it alone until {until.isoformat()}"
    return Wait(code, said, rules.basis(rule), until=until)


def _opaque(situation: Situation, day: date, rules: Rules) -> Wait | None:
    since = situation.opaque_since
    if since is None or day < since:
        return None
    until, basis = _after(since, rules.opaque_days), rules.basis("opaque_days")
    if day < until:
        said = f"eyes opaque since {since.isoformat()}: wait for the slough"
        return Wait("opaque", said, basis, until=until)
    said = f"opaque {(day - since).days} days ago and no slough recorded: look at skin and eyes"
    return Wait("opaque", said, basis, blocks=False)


def _before_slough(situation: Situation, day: date, rules: Rules) -> Wait | None:
    if situation.slough_expected is None or situation.opaque_since:
        return None
    early, late = situation.slough_expected
    middle, basis = early + (late - early) / 2, rules.basis("before_slough_days")
    span = f"a slough is expected {early.isoformat()} to {late.isoformat()}"
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
    situation: Situation, offers: tuple[Offer, ...], day: date, rules: Rules
) -> Wait | None:
    past = sorted(d for d in situation.regurgitations if d <= day)
    if not past:
        return None
    last, small = past[-1], rules.regurgitation_percent
    kept = sum(1 for o in offers if not o.refused and last < o.day <= day)
    repeated = len(past) > 1 and (last - past[-2]).days <= rules.regurgitation_repeat_days
    if not kept and repeated and (day - last).days <= rules.regurgitation_repeat_days:
        said = f"regurgitated on {past[-2].isoformat()} and {last.isoformat()}: see a vet before"
        basis = rules.basis("regurgitation_repeat_days")
        return Wait("regurgitated", f"{said} the next meal", basis, percent=small, see_vet=True)
    until = _after(last, rules.regurgitation_days)
    if not kept and day < until:
        said = f"regurgitated on {last.isoformat()}: rest until {until.isoformat()}, then smaller"
        basis = rules.basis("regurgitation_days")
        return Wait("regurgitated", said, basis, until=until, percent=small)
    if kept < rules.regurgitation_meals:
        said = f"regurgitated on {last.isoformat()}, {kept} meals kept since: smaller for now"
        basis = rules.basis("regurgitation_percent")
        return Wait("regurgitated", said, basis, False, percent=small)
    return None


def _cooling(situation: Situation, day: date, rules: Rules) -> Wait | None:
    if situation.cooling is None:
        return None
    start, end = situation.cooling
    warm = _after(end, rules.cooling_after_days) if end else None
    if day < _after(start, -rules.cooling_before_days) or (warm and day >= warm):
        return None
    if day < start:
        said = f"cooling begins on {start.isoformat()}: no meal before it, the gut must be empty"
        return Wait("cooling", said, rules.basis("cooling_before_days"), until=warm)
    until = f"until {warm.isoformat()}" if warm else "until it has been warm again for a while"
    said = f"cooled for winter since {start.isoformat()}: no meal {until}"
    return Wait("cooling", said, rules.basis("cooling_after_days"), until=warm)


def _gravid(situation: Situation, rules: Rules) -> Wait | None:
    since, laid = situation.gravid_since, situation.laid
    if since is None or (laid and laid >= since):
        return None
    said = f"gravid since {since.isoformat()}: smaller meals, refusing is usual"
    basis = rules.basis("gravid_percent")
    return Wait("gravid", said, basis, False, percent=rules.gravid_percent)


def _after(day: date, days: float) -> date:
    return day + timedelta(days=round(days))
