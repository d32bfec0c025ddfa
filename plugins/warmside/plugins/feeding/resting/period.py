"""A winter rest as a planned period: no food, cooling down, checks by weight, warming up."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime, timedelta, tzinfo

from msgspec import Struct

from warmside.plugins.feeding.condition.season import NONE, Season
from warmside.plugins.feeding.energy.rates import Span
from warmside.plugins.feeding.planning.body import THIN, Body

# Cooling down and warming up take a week each; weighed every fortnight, looked at every week; the
# loss from which it is weighed closely, as a share of the limit: common practice, no source.
STEP_DAYS, WEIGH_DAYS, LOOK_DAYS, CLOSE = 7, 14, 7, 0.6
FRESH_DAYS = 30
BEGINS = (10, 11, 12, 1)
"""Months in which cooling usually begins north of the equator, half a year later south of it
(common practice, no source)."""
MONTH = 30.4


class Rest(Struct, frozen=True):
    """A planned winter rest: no food from `stop`, cooled from `cool` on, warmed from `warm` on.

    `loss_percent` of the mass at which it ends; `event` is the number of its record.
    """

    stop: date
    cool: date
    warm: date
    loss_percent: float
    event: int = 0

    @property
    def cold(self) -> date:
        """The day on which it is fully cold."""
        return self.cool + timedelta(days=STEP_DAYS)

    @property
    def food(self) -> date:
        """The first day of food again."""
        return self.warm + timedelta(days=STEP_DAYS)

    def covers(self, day: date) -> bool:
        """The day lies within it, from the last meal to the first."""
        return self.stop <= day < self.food


class Candidate(Struct, frozen=True):
    """Who is to rest: what its species does, stage, age in days, days since it was weighed.

    `trouble` holds what is found of it now. None is what is not known.
    """

    name: str
    season: Season | None
    stage: str | None
    age_days: float | None
    weighed_days: int | None
    body: Body
    trouble: tuple[str, ...] = ()


def planned_rest(cool: date, weeks: float, stop_days: float, loss_percent: float) -> Rest:
    """The rest that begins with cooling down on a day and is cold for so many weeks."""
    stop = cool - timedelta(days=round(stop_days))
    warm = cool + timedelta(days=STEP_DAYS + round(7 * weeks))
    return Rest(stop, cool, warm, loss_percent)


def refusals(who: Candidate, today: date, rest: Rest) -> Iterator[str]:
    """Why it cannot be rested at all; no confirming helps."""
    if rest.stop < today:
        earliest = today + (rest.cool - rest.stop)
        yield (
            f"its last meal would have been before {rest.stop}; choose a later day to cool, from "
            f"{earliest} on"
        )
    if who.weighed_days is None or who.weighed_days > FRESH_DAYS:
        yield f"{who.name} has no weight of the last {FRESH_DAYS} days; weigh it first"
    if who.body.score is not None and who.body.score <= THIN:
        yield f"{who.name} has condition {who.body.score} of 5: too thin to rest"


def doubts(who: Candidate, weeks: float) -> Iterator[str]:
    """What speaks against it; the keeper may confirm with a vet's word."""
    season = who.season
    if season is None:
        yield "nothing is known here of a winter rest of its species; a vet or its breeder must say"
        return
    if season.winter == NONE:
        yield f"its species is not rested in winter ({season.source.text})"
        return
    low, high = season.rest_weeks
    if not low <= weeks <= high:
        yield f"{weeks:g} weeks are outside the usual {low:g} to {high:g}"
    if who.stage in (None, "hatchling", "juvenile"):
        yield f"its life stage is {who.stage or 'not known'}; only grown animals are rested"
    if who.age_days is None or who.age_days < MONTH * season.from_months:
        yield f"it is not known to be {season.from_months} months old"
    for found in who.trouble:
        yield f"it is not well: {found}"


def out_of_season(cool: date, zone: tzinfo) -> Iterator[str]:
    """That cooling begins in another season than usual, by where the keeper's clock is."""
    south = is_south(zone, cool.year)
    if (cool.month + 5) % 12 + 1 in BEGINS if south else cool.month in BEGINS:
        return
    usual, where = ("April to July", "south") if south else ("October to January", "north")
    yield (
        f"cooling from {cool} on is out of season: it begins in {usual} {where} of the equator; "
        "is that the month that is meant?"
    )


def is_south(zone: tzinfo, year: int) -> bool:
    """Whether the clock is put forward in January: south of the equator, as far as clocks tell."""
    january, july = (datetime(year, month, 15, tzinfo=zone).utcoffset() for month in (1, 7))
    return january is not None and july is not None and january > july


def lost_percent(start_g: float, now_g: float) -> float:
    """The loss since the rest began, in percent of the mass then; 0 for a gain."""
    return max(0.0, (1.0 - now_g / start_g) * 100.0)


def degrees(span: Span | None) -> str:
    """The temperatures of a rest in words."""
    return f"{span[0]:g}–{span[1]:g} °C" if span else "the temperature that your vet names"
