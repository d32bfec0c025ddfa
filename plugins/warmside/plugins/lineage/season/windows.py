"""When a female is to lay or give birth, as a range, and from when on she is overdue."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from math import ceil, floor

from msgspec import Struct

from warmside.api import Source
from warmside.plugins.lineage.season.course import Course, Seen, Sign
from warmside.plugins.lineage.season.figures import SeasonFigures, Span


class Window(Struct, frozen=True):
    """The days between which she is to lay, by which rule and records.

    `sure` says that she is known to carry eggs or young, so that she is overdue once it is over.
    """

    earliest: date
    latest: date
    rule: str
    source: Source
    events: tuple[int, ...]
    sure: bool


def window_of(course: Course, figures: SeasonFigures | None) -> Window | None:
    """The window by the surest sign on record; None where no sign or no figure tells."""
    if figures is None:
        return None
    found = list(_windows(course, figures))
    return next((w for w in found if w.sure), found[0] if found else None)


def _windows(course: Course, figures: SeasonFigures) -> Iterator[Window]:
    """The windows that the signs give, the nearest to laying first."""
    shed, ovulation = course.newest(Sign.LAYING_SHED), course.newest(Sign.OVULATION)
    if shed and figures.shed_to_laying:
        yield _after(shed, figures.shed_to_laying, "days after the shed before laying", sure=True)
    if ovulation and figures.ovulation_to_laying:
        sure = course.carries
        yield _after(ovulation, figures.ovulation_to_laying, "days after ovulation", sure=sure)
    yield from _of_gravid(course, figures)
    yield from _of_matings(course, figures)


def _of_gravid(course: Course, figures: SeasonFigures) -> Iterator[Window]:
    """A gravid female lays within what it takes from the start: she may have begun that day."""
    gravid, span = course.first(Sign.CONFIRMED), figures.longest
    if gravid and span:
        latest = gravid.day + timedelta(days=ceil(span.high))
        mated = course.first(Sign.MATED)
        begun = mated.day + timedelta(days=floor(span.low)) if mated else gravid.day
        rule = (
            f"gravid on {gravid.day}, and at most {span.high:g} days from the beginning to laying"
        )
        yield Window(max(gravid.day, begun), latest, rule, span.source, (gravid.event,), True)


def _of_matings(course: Course, figures: SeasonFigures) -> Iterator[Window]:
    """From the first mating on; a mating alone does not say that she took."""
    mated, span = course.all(Sign.MATED), figures.mating_to_laying
    if mated and span:
        first, last = mated[0], mated[-1]
        rule = f"{_days(span)} days after a mating, if she took"
        yield Window(
            first.day + timedelta(days=floor(span.low)),
            last.day + timedelta(days=ceil(span.high)),
            rule,
            span.source,
            tuple(s.event for s in mated),
            False,
        )


def _after(seen: Seen, span: Span, what: str, *, sure: bool) -> Window:
    return Window(
        seen.day + timedelta(days=floor(span.low)),
        seen.day + timedelta(days=ceil(span.high)),
        f"{_days(span)} {what} on {seen.day}",
        span.source,
        (seen.event,),
        sure,
    )


def _days(span: Span) -> str:
    return f"{span.low:g} to {span.high:g}"


class Next(Struct, frozen=True):
    """When the shed before laying, or a further clutch, is to be looked for."""

    what: str
    earliest: date
    latest: date
    rule: str
    source: Source
    events: tuple[int, ...]


def next_shed(course: Course, figures: SeasonFigures | None) -> Next | None:
    """The shed before laying, after an ovulation; None once it is there."""
    ovulation = course.newest(Sign.OVULATION)
    span = figures.ovulation_to_shed if figures else None
    if ovulation is None or span is None or course.newest(Sign.LAYING_SHED):
        return None
    return _next("shed before laying", ovulation, span)


def next_clutch(course: Course, figures: SeasonFigures | None) -> Next | None:
    """A further clutch of the season, where the species lays several."""
    span = figures.again if figures else None
    if course.last_laid is None or span is None:
        return None
    return _next("perhaps a further clutch", course.last_laid, span)


def _next(what: str, seen: Seen, span: Span) -> Next:
    earliest, latest = (seen.day + timedelta(days=round(n)) for n in (span.low, span.high))
    events = (seen.event,) if seen.event else ()
    return Next(what, earliest, latest, f"{_days(span)} days after {seen.day}", span.source, events)
