"""When a female is to lay, against what was published of the species, and from when she is late."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

import pytest

from warmside.plugins.lineage.season.course import Course, Seen, Sign, course_of
from warmside.plugins.lineage.season.figures import season_figures
from warmside.plugins.lineage.season.overdue import LAYING_ACT, LONG_DAYS, NOT_WAITING, late
from warmside.plugins.lineage.season.windows import Window, next_clutch, next_shed, window_of

START = date(2026, 1, 10)
BALL, BOA, GECKO, CORN = (
    "Python regius",
    "Boa imperator",
    "Eublepharis macularius",
    "Pantherophis guttatus",
)


def day(number: int) -> date:
    return START + timedelta(days=number)


def course(species: str, *signs: tuple[Sign, int], on: int = 500) -> Course:
    figures = season_figures(species)
    assert figures is not None
    seen = (Seen(sign, day(n), event) for event, (sign, n) in enumerate(signs, 1))
    return course_of(seen, day(on), figures.shed_from)


def window(species: str, *signs: tuple[Sign, int]) -> tuple[int, int, bool] | None:
    last = max(n for _, n in signs)
    found = window_of(course(species, *signs, on=last), season_figures(species))
    return found and ((found.earliest - START).days, (found.latest - START).days, found.sure)


@pytest.mark.parametrize(
    ("species", "days", "source"),
    [
        ("Pantherophis guttatus", 61, "Myhrvold et al. 2015, Ecology 96"),
        ("Python regius", 67.8, "Myhrvold et al. 2015, Ecology 96"),
        ("Python regius", 58, "Ellis & Chappell 1987, 29.2 °C, the least"),
        ("Python regius", 70, "Ellis & Chappell 1987, 29.2 °C, the most"),
        ("Heterodon nasicus", 56, "Myhrvold et al. 2015, Ecology 96"),
        ("Lampropeltis californiae", 59, "Myhrvold et al. 2015, Ecology 96 (L. getula)"),
        ("Morelia spilota", 65, "Myhrvold et al. 2015, Ecology 96"),
        ("Eublepharis macularius", 53, "Myhrvold et al. 2015, Ecology 96"),
        ("Correlophus ciliatus", 65.5, "Myhrvold et al. 2015, Ecology 96"),
        ("Pogona vitticeps", 75, "Myhrvold et al. 2015, Ecology 96"),
    ],
)
def test_published_incubation_lies_within_the_window(
    species: str, days: float, source: str
) -> None:
    figures = season_figures(species)
    assert figures and figures.incubation
    assert figures.incubation.low <= days <= figures.incubation.high, source


@pytest.mark.parametrize(
    ("species", "days"),
    [("Boa imperator", 138.6), ("Pantherophis guttatus", 51), ("Lampropeltis californiae", 61)],
)
def test_published_gestation_lies_within_the_window(species: str, days: float) -> None:
    """Mean gestation, Myhrvold et al. 2015, Ecology 96, life-history data."""
    figures = season_figures(species)
    assert figures and figures.longest
    assert figures.longest.low <= days <= figures.longest.high


def test_the_shed_before_laying_tells_better_than_the_ovulation() -> None:
    ovulated = (Sign.OVULATION, 40)
    assert window(BALL, ovulated) == (82, 114, False)
    assert window(BALL, ovulated, (Sign.SHED, 60)) == (88, 110, True)


def test_a_shed_that_was_on_its_way_at_ovulation_is_not_the_one_before_laying() -> None:
    assert window(BALL, (Sign.OVULATION, 40), (Sign.SHED, 44)) == (82, 114, False)


def test_of_two_sheds_the_later_one_counts() -> None:
    found = window(BALL, (Sign.CONFIRMED, 10), (Sign.SHED, 20), (Sign.SHED, 55))
    assert found == (83, 105, True)


def test_a_mating_alone_gives_a_window_but_says_not_that_she_took() -> None:
    assert window(GECKO, (Sign.MATED, 0), (Sign.MATED, 5)) == (21, 33, False)
    assert window(BALL, (Sign.MATED, 0)) is None  # how long from mating is not known of them


def test_a_gravid_one_has_at_most_as_long_as_it_takes_from_the_beginning() -> None:
    assert window(GECKO, (Sign.MATED, 0), (Sign.CONFIRMED, 12)) == (21, 40, True)
    assert window(BOA, (Sign.CONFIRMED, 30)) == (30, 171, True)


def test_a_clutch_ends_what_was_seen_before_it_even_on_its_day() -> None:
    signs = ((Sign.MATED, 0), (Sign.CONFIRMED, 25), (Sign.LAID, 25))
    found = course(GECKO, *signs)
    assert found.signs == () and found.last_laid is not None
    again = next_clutch(found, season_figures(GECKO))
    assert again and (again.earliest, again.latest) == (day(40), day(50))


def test_a_clutch_entered_without_an_event_comes_after_what_was_seen_on_its_day() -> None:
    seen = [Seen(Sign.CONFIRMED, day(25), 7), Seen(Sign.LAID, day(25))]
    assert course_of(seen, day(30)).signs == ()


def test_what_is_over_is_no_course_any_more() -> None:
    assert course(BALL, (Sign.OVULATION, 0), (Sign.OVER, 60)).signs == ()


def test_the_shed_before_laying_is_told_until_it_is_there() -> None:
    before = next_shed(course(BALL, (Sign.OVULATION, 0), on=5), season_figures(BALL))
    assert before and (before.earliest, before.latest) == (day(14), day(24))
    after = course(BALL, (Sign.OVULATION, 0), (Sign.SHED, 20), on=25)
    assert next_shed(after, season_figures(BALL)) is None


def said(
    signs: Iterable[tuple[Sign, int]], on: int, species: str = BALL
) -> tuple[bool, str] | None:
    signs = list(signs)
    found = course(species, *signs, on=on)
    told = late(found, window_of(found, season_figures(species)), 7.0, day(on))
    return told and (told.act, told.words)


def test_past_her_window_she_is_looked_at_and_a_week_later_a_vet_is_named() -> None:
    signs = [(Sign.OVULATION, 0), (Sign.SHED, 20)]  # to lay by day 70
    assert said(signs, 70) is None
    looked, words = said(signs, 71) or (None, "")
    assert looked is False and "look at her daily" in words
    assert (said(signs, 77) or (None,))[0] is False
    act, words = said(signs, 78) or (None, "")
    assert act is True and words.endswith(NOT_WAITING)


@pytest.mark.parametrize("species", ["Chamaeleo calyptratus", "Furcifer pardalis"])
def test_a_gravid_chameleon_is_not_waited_for_beyond_six_weeks(species: str) -> None:
    """Chameleons lay three to six weeks after mating: an encyclopedia, as quoted (secondary)."""
    figures = season_figures(species)
    assert figures is not None and figures.mating_to_laying is not None
    told = []
    for on in (42, 43, 50):
        found = course(species, (Sign.CONFIRMED, 0), on=on)
        told.append(late(found, window_of(found, figures), 7.0, day(on)))
    assert [one and one.act for one in told] == [None, False, True]


def test_an_ovulation_that_nothing_followed_is_never_pressing() -> None:
    told = said([(Sign.OVULATION, 0)], 120)
    assert told and told[0] is False and "if the ovulation was one" in told[1]


def test_a_mating_that_nothing_followed_is_never_told_of() -> None:
    assert said([(Sign.MATED, 0)], 300, CORN) is None


def test_a_laying_that_does_not_end_is_for_a_vet_after_two_days() -> None:
    begun = [(Sign.LAYING, 50)]
    assert said(begun, 50) is None
    assert (said(begun, 51) or (None,))[0] is False
    assert (said(begun, 50 + LAYING_ACT) or (None,))[0] is True
    assert said([*begun, (Sign.LAID, 51)], 55) is None


def test_of_a_species_without_figures_a_long_gravidity_is_told_and_no_window_made_up() -> None:
    found = course_of([Seen(Sign.CONFIRMED, day(0), 1)], day(LONG_DAYS + 1))
    assert window_of(found, None) is None
    told = late(found, None, 7.0, day(LONG_DAYS + 1))
    assert told and not told.act and "no window is known" in told.words
    assert late(found, None, 7.0, day(LONG_DAYS)) is None
    assert late(found, None, 7.0, day(61), group="gecko") and not late(found, None, 7.0, day(61))


def test_a_window_can_be_traced_to_its_record_and_source() -> None:
    signs = ((Sign.OVULATION, 0), (Sign.SHED, 20))
    found = window_of(course(BALL, *signs, on=30), season_figures(BALL))
    assert isinstance(found, Window)
    assert found.events == (2,) and "28 to 50 days" in found.rule and found.source.text
