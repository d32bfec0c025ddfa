"""What a winter rest asks for, and when its loss is told."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date, timedelta

from warmside.api import About, Basis, Finding, Level, Mark, Source, Task
from warmside.plugins.feeding.kinds import LOOKED
from warmside.plugins.feeding.resting.course import Course
from warmside.plugins.feeding.resting.period import CLOSE, LOOK_DAYS, WEIGH_DAYS, degrees

USUAL = Source("winter rest as usual among keepers", Mark.COMMON_PRACTICE)
LOSS_CODE = "feeding.rest_loss"


def asked(course: Course, on: date) -> Iterator[Task]:
    """Cool it down, look at it and weigh it, warm it up: what is due of one rest."""
    rest = course.rest
    if course.cooled is None:
        if on >= rest.cool:
            yield _task(
                course,
                f"begin to cool it down, over a week, to {_cold(course)}",
                "cooling",
                rest.cool,
                {"state": "begun"},
                "only with an empty gut; water stays; never colder than that",
            )
        return
    looked = course.looked or course.cooled
    yield _task(
        course,
        "look at it in its winter rest: breathing, water, temperature",
        LOOKED,
        looked + timedelta(days=LOOK_DAYS),
        {},
        f"at {_cold(course)}",
    )
    last = course.last.day if course.last else course.cooled
    yield _task(
        course,
        "weigh it in its winter rest",
        "weighed",
        last + timedelta(days=WEIGH_DAYS),
        {},
        _loss_words(course),
    )
    if on >= rest.warm:
        yield _task(
            course,
            "end the winter rest: warm it up over a week",
            "cooling",
            rest.warm,
            {"state": "ended"},
            f"water and a bath at once, food from {rest.food} on",
        )


def _task(
    course: Course, what: str, settles: str, due: date, data: Mapping[str, str], note: str
) -> Task:
    rest = course.rest
    rule = f"winter rest planned from {rest.cool} to {rest.warm}"
    source = course.season.source if course.season else USUAL
    about = About(course.animal_id)
    return Task(what, due, Basis(rule, source, (rest.event,)), about, settles, data, note=note)


def losing(course: Course) -> Iterator[Finding]:
    """The loss in a rest: near its limit, or at it."""
    lost = course.lost_percent if course.cooled else None
    if lost is None or lost < CLOSE * course.rest.loss_percent:
        return
    limit, about = course.rest.loss_percent, About(course.animal_id)
    ends = lost >= limit
    level = Level.ACT_NOW if ends else Level.LOOK_SOON
    what = "end it now: warm it up over some days and see a vet" if ends else "weigh it every week"
    words = f"lost {lost:.2g} % in its winter rest, which ends at {limit:g} %: {what}"
    events = tuple(w.event for w in (course.first, course.last) if w and w.event)
    source = course.season.source if course.season else USUAL
    yield Finding(LOSS_CODE, level, words, Basis("loss since it was cooled", source, events), about)


def _cold(course: Course) -> str:
    return degrees(course.season.rest_c if course.season else None)


def _loss_words(course: Course) -> str:
    lost, limit = course.lost_percent, course.rest.loss_percent
    if lost is None:
        return f"it ends at a loss of {limit:g} %"
    return f"lost {lost:.2g} % so far, it ends at {limit:g} %"
