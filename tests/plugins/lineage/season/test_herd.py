"""A herd of healthy females, season by season and day by day: nobody is sent to a vet for nothing.

How they vary is invented within and a little beyond the ranges that ship; seeded.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from datetime import date, timedelta

import pytest

from warmside.plugins.lineage.season.course import Seen, Sign, course_of
from warmside.plugins.lineage.season.figures import SeasonFigures, Span, season_figures
from warmside.plugins.lineage.season.overdue import Late, late
from warmside.plugins.lineage.season.windows import window_of

SPECIES = (
    "Python regius",
    "Boa imperator",
    "Pantherophis guttatus",
    "Lampropeltis californiae",
    "Eublepharis macularius",
    "Correlophus ciliatus",
    "Pogona vitticeps",
    "Morelia spilota",
)
START = date(2025, 1, 1)
LATE_DAYS = 7.0
SEASONS = 12


def told(seen: list[Seen], figures: SeasonFigures, days: range) -> Iterator[Late]:
    """What would be told on each of these days."""
    for number in days:
        on = START + timedelta(days=number)
        course = course_of(seen, on, figures.shed_from)
        found = late(course, window_of(course, figures), LATE_DAYS, on)
        if found is not None:
            yield found


def within(draw: random.Random, span: Span | None, tail: float = 0.0) -> int:
    assert span is not None
    return round(draw.uniform(span.low, span.high + tail))


def healthy(draw: random.Random, figures: SeasonFigures) -> tuple[list[Seen], int]:
    """Matings, what a keeper happened to see and write, ordinary sheds, and the day of laying.

    Early and late layers, those of which no ovulation was seen, and infertile ones lay alike.
    """
    mated = [draw.randrange(0, 20) for _ in range(draw.randrange(0, 4))]  # none: no father known
    signs = [(Sign.MATED, day) for day in mated]
    first = max(mated, default=0)
    if figures.ovulation_to_shed is not None:
        ovulated = first + draw.randrange(10, 60)
        shed = ovulated + within(draw, figures.ovulation_to_shed)
        laid = shed + within(draw, figures.shed_to_laying, tail=5)
        signs += [(Sign.OVULATION, ovulated)] if draw.random() < 0.7 else []
        signs += [(Sign.SHED, ovulated - draw.randrange(15, 30)), (Sign.SHED, shed)]
        confirmed = ovulated + draw.randrange(5, 40)
    else:
        laid = first + within(draw, figures.mating_to_laying, tail=5)
        if figures.shed_to_laying is not None:
            signs.append((Sign.SHED, laid - within(draw, figures.shed_to_laying)))
        confirmed = laid - draw.randrange(2, 15)
    signs += [(Sign.CONFIRMED, min(confirmed, laid - 1))] if draw.random() < 0.6 else []
    seen = [Seen(s, START + timedelta(days=n), e) for e, (s, n) in enumerate(signs, 1)]
    return seen, laid


@pytest.mark.parametrize("species", SPECIES)
def test_no_healthy_season_gives_an_act_now(species: str) -> None:
    figures, draw = season_figures(species), random.Random(species)
    assert figures is not None
    for _ in range(SEASONS):
        seen, laid = healthy(draw, figures)
        end = Seen(Sign.LAID, START + timedelta(days=laid), 99)
        second: list[Seen] = []
        if figures.again is not None and draw.random() < 0.5:  # a second clutch, from stored sperm
            again = laid + within(draw, figures.again)
            second = [Seen(Sign.LAID, START + timedelta(days=again), 100)]
        pressing = [x for x in told([*seen, end, *second], figures, range(laid + 60)) if x.act]
        assert pressing == [], (seen, laid)


@pytest.mark.parametrize("species", SPECIES)
def test_a_gravid_one_that_does_not_lay_is_told_of_and_not_only_once(species: str) -> None:
    figures, draw = season_figures(species), random.Random(species)
    assert figures is not None and figures.longest is not None
    for _ in range(SEASONS):
        seen, laid = healthy(draw, figures)
        gravid = Seen(Sign.CONFIRMED, START + timedelta(days=laid - 2), 50)
        latest = laid + round(figures.longest.high) + round(LATE_DAYS) + 2
        found = list(told([*seen, gravid], figures, range(latest, latest + 5)))
        assert len(found) == 5 and all(x.act for x in found)
