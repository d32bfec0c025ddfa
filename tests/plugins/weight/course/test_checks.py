"""Signs in the course of an animal's weights."""

from __future__ import annotations

from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from warmside.api import Display, Level, LifeStage, Mark
from warmside.plugins.weight.course.checks import GROWING, Course, Sign, WeightSign, signs
from warmside.plugins.weight.course.limits import CUSTOM, SUPPORT, Limits
from warmside.plugins.weight.course.series import Weighings, weighings

DAY = 738_000.0
STAGES = st.sampled_from([*LifeStage, None])


def _series(*masses: float, every: float = 14.0) -> Weighings:
    return weighings((100 + i, DAY + i * every, mass) for i, mass in enumerate(masses))


def _only(course: Course, limits: Limits | None = None) -> WeightSign:
    (found,) = signs(course, limits) if limits else signs(course)
    return found


@given(st.floats(1, 5000), st.integers(2, 80), st.floats(0.01, 60), STAGES)
def test_a_constant_mass_raises_nothing_but_a_juveniles_stall(
    mass: float, count: int, every: float, stage: LifeStage | None
) -> None:
    """Neither loss nor gain; a juvenile that does not grow is another matter."""
    found = signs(Course(_series(*[mass] * count, every=every), stage))
    assert {one.sign for one in found} <= ({Sign.STALLED} if stage in GROWING else set())


@given(st.lists(st.floats(1, 5000), max_size=40), st.floats(1, 60), STAGES)
def test_every_sign_names_recorded_weighings(
    masses: list[float], every: float, stage: LifeStage | None
) -> None:
    """And says its level and its source, whatever the course."""
    those = _series(*masses, every=every)
    for one in signs(Course(those, stage, laid=[DAY + 20], sheds=[DAY + 50])):
        assert one.events and set(one.events) <= set(those.events)
        assert one.events[-1] == those.events[-1]
        assert one.source.text and one.words


@given(
    st.lists(st.floats(100, 900), min_size=2, max_size=30),
    st.floats(0.8, 0.99),
)
def test_a_lighter_last_weighing_never_takes_a_loss_away(masses: list[float], part: float) -> None:
    """Losses only grow with less mass."""

    def lost(last: float) -> float:
        found = signs(Course(_series(*masses[:-1], last)))
        return min((s.change for s in found if s.source is SUPPORT), default=0.0)

    assert lost(masses[-1] * part) <= lost(masses[-1])


def test_ten_percent_below_the_recent_peak_is_to_be_looked_at() -> None:
    """Names the peak and the last weighing, cites the source, calls a vet and no diagnosis."""
    found = _only(Course(_series(400, 412, 400, 370)))
    assert (found.sign, found.level) == (Sign.ACUTE_LOSS, Level.LOOK_SOON)
    assert found.events == (101, 103)
    assert found.source.mark is Mark.PUBLISHED
    assert found.change == pytest.approx(370 / 412 - 1)
    assert "412 g" in found.words and "370 g" in found.words and "vet" in found.words


def test_less_than_ten_percent_is_no_sign() -> None:
    """9.9 %."""
    assert signs(Course(_series(400, 412, 400, 371.5))) == ()


def test_an_imperial_collection_reads_pounds() -> None:
    found = _only(Course(_series(1000, 850)), Limits(display=Display.IMPERIAL))
    assert "2 lb 3.3 oz on" in found.words and " g on" not in found.words


@pytest.mark.parametrize(("peak", "last"), [(1000, 900), (500, 450), (412, 370.8)])
def test_just_ten_percent_counts_whatever_floats_make_of_it(peak: float, last: float) -> None:
    """900 / 1000 - 1 is -0.09999999999999998."""
    assert _only(Course(_series(peak, last))).sign is Sign.ACUTE_LOSS


def test_twenty_percent_below_the_years_peak_wants_action() -> None:
    """Lost slowly, so that no two months lose ten."""
    masses = [500 * 0.985**i for i in range(16)]
    found = _only(Course(_series(*masses, every=20)))
    assert (found.sign, found.level) == (Sign.CHRONIC_LOSS, Level.ACT_NOW)
    assert found.events == (100, 115)


def test_a_fast_loss_of_twenty_percent_wants_action_at_once() -> None:
    """The graver level, with the acute code."""
    found = _only(Course(_series(400, 400, 300)))
    assert (found.sign, found.level) == (Sign.ACUTE_LOSS, Level.ACT_NOW)


def test_a_fast_loss_does_not_hide_a_greater_one_from_the_years_peak() -> None:
    """Told from the peak of 250 g, not from the recent 190 g."""
    found = _only(Course(_series(250, 240, 230, 220, 200, 190, 180, 175, 140)))
    assert (found.sign, found.level) == (Sign.CHRONIC_LOSS, Level.ACT_NOW)
    assert found.events == (100, 108)


def test_a_peak_of_years_ago_is_forgotten() -> None:
    """More than a year before the last weighing."""
    assert signs(Course(_series(600, 400, 401, 400, every=370))) == ()


def test_the_keepers_own_limit_counts() -> None:
    """5 % instead of 10 %."""
    course = Course(_series(400, 412, 390))
    assert signs(course) == ()
    assert _only(course, Limits(acute_loss=0.05)).sign is Sign.ACUTE_LOSS


def test_a_clutch_explains_a_fall_and_ends_the_old_peak() -> None:
    """A note at first; then the weights after laying are compared among themselves."""
    laid = [DAY + 20]
    found = _only(Course(_series(1500, 1520, 1050), laid=laid))
    assert (found.sign, found.level) == (Sign.AFTER_LAYING, Level.NOTE)
    assert signs(Course(_series(1500, 1520, 1050, 1060), laid=laid)) == ()
    later = _only(Course(_series(1500, 1520, 1050, 930), laid=laid))
    assert later.sign is Sign.ACUTE_LOSS
    assert later.events == (102, 103)


def test_after_a_second_clutch_the_first_is_past() -> None:
    """Both within the year: the weights between the two clutches are no peak any more."""
    masses = _series(1500, 1520, 1050, 1300, 1010, 1000)
    assert signs(Course(masses, laid=[DAY + 20, DAY + 50])) == ()
    assert _only(Course(masses, laid=[DAY + 20])).sign is Sign.ACUTE_LOSS


def test_more_than_a_clutch_may_take_is_to_be_looked_at() -> None:
    """Half the female."""
    found = _only(Course(_series(1500, 1520, 760), laid=[DAY + 20]))
    assert (found.sign, found.level) == (Sign.AFTER_LAYING, Level.LOOK_SOON)
    assert "vet" in found.words


def test_a_shed_explains_a_few_percent_and_no_loss() -> None:
    """3 % is a note, 12 % is a loss as ever."""
    assert _only(Course(_series(400, 388), sheds=[DAY + 7])).sign is Sign.AFTER_SHED
    assert _only(Course(_series(400, 352), sheds=[DAY + 7])).sign is Sign.ACUTE_LOSS
    assert signs(Course(_series(400, 388))) == ()


def test_winter_cooling_explains_some_loss_but_not_ten_percent() -> None:
    """Between 5 and 10 % since it began is a note; beyond is a loss that says so."""
    cooled = [(DAY + 10, inf)]
    found = _only(Course(_series(400, 390, 372), cooled=cooled))
    assert (found.sign, found.level, found.events) == (Sign.COOLING, Level.NOTE, (100, 102))
    lost = _only(Course(_series(400, 390, 350), cooled=cooled))
    assert lost.sign is Sign.ACUTE_LOSS
    assert "winter cooling" in lost.words
    assert signs(Course(_series(400, 390, 372), cooled=[(DAY - 90, DAY - 10)])) == ()


def test_a_juvenile_that_stops_growing() -> None:
    """After two months; not an adult, not in winter cooling, not while it grows."""
    flat = Course(_series(80, 81, 80, 81, 80, 81), LifeStage.JUVENILE)
    found = _only(flat)
    assert (found.sign, found.level, found.source) == (Sign.STALLED, Level.LOOK_SOON, CUSTOM)
    assert found.events == (100, 101, 102, 103, 104, 105)
    assert signs(replace(flat, stage=LifeStage.ADULT)) == ()
    assert signs(replace(flat, stage=None)) == ()
    assert signs(replace(flat, cooled=[(DAY + 30, DAY + 40)])) == ()
    assert signs(Course(_series(80, 83, 86, 90, 93, 97), LifeStage.JUVENILE)) == ()
    assert signs(Course(_series(80, 81, 80), LifeStage.JUVENILE)) == ()


def test_a_juvenile_that_loses_has_a_loss_and_not_also_a_stall() -> None:
    """One sign for one thing."""
    assert (
        _only(Course(_series(80, 81, 80, 79, 76, 70), LifeStage.JUVENILE)).sign is Sign.ACUTE_LOSS
    )


def test_an_adult_that_gains_fast() -> None:
    """A note; not in a juvenile, not when gravid, not when it only regains what it had."""
    fat = Course(_series(1000, 1010, 1040, 1100, 1190), LifeStage.ADULT)
    found = _only(fat)
    assert (found.sign, found.level, found.events) == (Sign.FAST_GAIN, Level.NOTE, (100, 104))
    assert signs(replace(fat, stage=LifeStage.JUVENILE)) == ()
    assert signs(replace(fat, gravid=[(DAY + 30, inf)])) == ()
    assert signs(Course(_series(1200, 1010, 1040, 1100, 1190), LifeStage.ADULT)) == ()
    assert signs(Course(_series(1000, 1010, 1040, 1100), LifeStage.ADULT)) == ()


@pytest.mark.parametrize("masses", [(), (400.0,)])
def test_with_fewer_than_two_weighings_there_is_nothing_to_say(masses: tuple[float, ...]) -> None:
    """No sign, no error."""
    assert signs(Course(_series(*masses), LifeStage.JUVENILE)) == ()
