"""Signs in the course of an animal's weights."""

from __future__ import annotations

from math import exp, inf

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from warmside.api import Display, Level, LifeStage, Mark
from warmside.plugins.weight.course.checks import signs
from warmside.plugins.weight.course.limits import OUR_RULE, Limits
from warmside.plugins.weight.course.series import Weighings, less_meals, weighings
from warmside.plugins.weight.course.sign import YOUNG, Course, Sign, WeightSign
from warmside.plugins.weight.course.stall import grew_little
from warmside.plugins.weight.loss.judging import lighter_unexplained

DAY = 738_000.0
STAGES = st.sampled_from([*LifeStage, None])
LOSSES = (Sign.LOSS, Sign.WASTING)


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
    assert {one.sign for one in found} <= ({Sign.STALLED} if stage in YOUNG else set())


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
def test_a_lighter_last_weighing_is_never_less_grave(masses: list[float], part: float) -> None:
    """The level of the gravest loss only rises with less mass."""

    def grave(last: float) -> int:
        found = signs(Course(_series(*masses[:-1], last)))
        return max((RANKS.index(s.level) for s in found if s.sign in LOSSES), default=-1)

    assert grave(masses[-1] * part) >= grave(masses[-1])


RANKS = (Level.NOTE, Level.LOOK_SOON, Level.ACT_NOW)
STEADY = (400.0, 404, 398, 402, 400, 399)


def test_two_weighings_running_below_the_years_level_are_to_be_looked_at() -> None:
    """5 % together, also of an animal that eats; one alone asks only for another weighing."""
    once = Course(_series(*STEADY, 382))
    assert signs(once) == () and lighter_unexplained(once)
    found = _only(Course(_series(*STEADY, 382, 376)))
    assert (found.sign, found.level) == (Sign.WASTING, Level.LOOK_SOON)
    assert found.events == (106, 107)
    assert found.change == pytest.approx(376 / 400 - 1)
    assert "usually 400 g" in found.words and "376 g" in found.words


def test_three_falls_running_are_to_be_looked_at() -> None:
    """5 % below its level, before two weighings are; falls that noise makes are none."""
    found = _only(Course(_series(*STEADY, 406, 398, 390, 380)))
    assert found.sign is Sign.WASTING and "three falls" in found.words
    assert signs(Course(_series(*STEADY, 406, 399, 392, 384))) == ()
    assert signs(Course(_series(*STEADY, 401, 400, 399, 398))) == ()


def test_one_weighing_far_below_is_enough_to_look() -> None:
    """5 % and the noise of a weighing, 1.5 % or more by the scale: weigh again within days."""
    found = _only(Course(_series(*STEADY, 402, 373)))
    assert (found.sign, found.level) == (Sign.WASTING, Level.LOOK_SOON)
    assert "again within days" in found.words
    assert signs(Course(_series(*STEADY, 402, 375))) == ()
    assert signs(Course(_series(100, 105, 100, 105, 100, 105, 95))) == ()  # noise 2.1 %


def test_a_tenth_without_a_reason_is_for_a_vet_once_it_is_weighed_twice() -> None:
    """The last two weighings are named; no diagnosis."""
    found = _only(Course(_series(*STEADY, 370, 355)))
    assert (found.sign, found.level, found.source) == (Sign.LOSS, Level.ACT_NOW, OUR_RULE)
    assert found.events == (106, 107)
    assert "vet" in found.words and "no reason is on record" in found.words
    once = _only(Course(_series(*STEADY, 355)))
    assert (once.sign, once.level) == (Sign.LOSS, Level.LOOK_SOON)


def test_a_loss_of_a_fifth_wants_action_at_once() -> None:
    """Also where only one weighing says so."""
    assert _only(Course(_series(*STEADY, 315))).level is Level.ACT_NOW


def test_slow_wasting_is_seen_long_before_a_fifth_is_gone() -> None:
    """700 g to 579 g in four months, every meal eaten: look soon by 7 %, a vet by 13 %."""
    masses = [700.0, 703, 698, 701, 697, 702] + [700 * 0.988**k for k in range(1, 17)]
    first: dict[Level, float] = {}
    for end in range(7, len(masses) + 1):
        for one in signs(Course(_series(*masses[:end], every=8), LifeStage.ADULT)):
            first.setdefault(one.level, 1 - masses[end - 1] / 700)
    assert first[Level.LOOK_SOON] < 0.07 and first[Level.ACT_NOW] < 0.13


def test_a_coarse_scale_makes_no_loss() -> None:
    """65 and 60 g on a scale of 5 g are one reading apart; two apart are a loss."""
    assert signs(Course(_series(65, 65, 60, 65, 65, 60, 60))) == ()
    assert _only(Course(_series(65, 65, 60, 65, 65, 55, 55))).sign is Sign.LOSS


def test_a_coarse_scale_is_known_though_meals_are_taken_off() -> None:
    """65 g less a meal of 2 g is no multiple of 5 g, and the scale shows 5 g all the same."""
    read = _series(65, 65, 60, 65, 65, 60, 60)
    less = less_meals(read, [(day - 1, 2.0) for day in read.days[1:]], 5.0)
    assert less.masses_g[-1] == pytest.approx(60 - 1.6)
    assert (less.step_g, less[2:].step_g, less.without([100]).step_g) == (5.0, 5.0, 5.0)
    assert signs(Course(less)) == ()
    fine = replace(less, step_g=0.0)
    assert _only(Course(fine)).sign is Sign.WASTING


def test_with_few_weighings_the_heaviest_is_the_measure() -> None:
    """Names it and the last; cites the marks for support."""
    found = _only(Course(_series(400, 412, 400, 370)))
    assert (found.sign, found.level) == (Sign.LOSS, Level.LOOK_SOON)
    assert found.events == (101, 103)
    assert found.source.mark is Mark.SECONDARY and "not a limit for a fast" in found.source.text
    assert signs(Course(_series(400, 412, 400, 371.5))) == ()


def test_an_imperial_collection_reads_pounds() -> None:
    found = _only(Course(_series(1000, 850)), Limits(display=Display.IMPERIAL))
    assert "2 lb 3.3 oz on" in found.words and " g on" not in found.words


@pytest.mark.parametrize(("peak", "last"), [(1000, 900), (500, 450), (412, 370.8)])
def test_just_ten_percent_counts_whatever_floats_make_of_it(peak: float, last: float) -> None:
    """900 / 1000 - 1 is -0.09999999999999998."""
    assert _only(Course(_series(peak, last))).sign is Sign.LOSS


def test_a_peak_of_years_ago_is_forgotten() -> None:
    """More than a year before the last weighing."""
    assert signs(Course(_series(600, 400, 401, 400, every=370))) == ()


def test_the_keepers_own_limit_counts() -> None:
    """3 % instead of 5 %."""
    course = Course(_series(*STEADY, 388, 386))
    assert signs(course) == ()
    assert _only(course, Limits(low_loss=0.03)).sign is Sign.WASTING


FAST_FROM = DAY + 5 * 14.0


def _fasting(*masses: float) -> Course:
    """Steady, then weighed every two weeks of a fast in which each week's meal is refused."""
    refused = [FAST_FROM + 7 * k for k in range(1, 60)]
    meals = [DAY + 7 * k for k in range(11)]
    return Course(_series(*STEADY, *masses), LifeStage.ADULT, meals=meals, refused=refused)


def test_a_fast_explains_what_fasting_snakes_lose() -> None:
    """0.5 % a week for four months; the same without a fast is for a vet."""
    masses = [400 * 0.995 ** (2 * k) for k in range(1, 9)]
    assert signs(_fasting(*masses)) == ()
    alone = signs(replace(_fasting(*masses), refused=()))
    assert [one.sign for one in alone] == [Sign.WASTING]


def test_a_fast_does_not_explain_two_percent_a_week() -> None:
    """A vet within six weeks, at a tenth; fasting pythons are cited."""
    masses = [400 * 0.98 ** (2 * k) for k in range(1, 9)]
    levels = []
    for n in range(1, 9):
        levels.append([one.level for one in signs(_fasting(*masses[:n]))])
    assert levels[:2] == [[], []] and levels[2] == [Level.ACT_NOW]
    (found,) = signs(_fasting(*masses[:3]))
    assert "McCue 2007" in found.words


def test_the_published_marks_hold_in_a_fast() -> None:
    """10 % after five months: look soon, as a mark from which support is called for."""
    masses = [400 * (1 - 0.0105 * k) for k in range(1, 11)]
    (found,) = signs(_fasting(*masses))
    assert (found.sign, found.level) == (Sign.LOSS, Level.LOOK_SOON)
    assert "support" in found.words and "before its fast" in found.words


def test_getting_over_a_fast_is_no_loss_but_losing_on_is() -> None:
    """Two weighings below the lowest of the fast, though it eats again."""
    fasted = _fasting(390, 385, 380, 377)
    after = replace(fasted, meals=[*fasted.meals, FAST_FROM + 60])
    assert signs(replace(after, weighings=_series(*STEADY, 390, 385, 380, 377, 380, 384))) == ()
    on = replace(after, weighings=_series(*STEADY, 390, 385, 380, 377, 356, 355))
    assert [one.sign for one in signs(on)] == [Sign.WASTING]


def test_a_fast_that_is_over_explains_no_more_than_it_can_have_cost() -> None:
    """40 days without food cost a python 4 %, made up again; to lose on needs another reason."""
    fasted = _fasting(394, 390, 386, 384)
    eaten = [*fasted.meals, *(FAST_FROM + 40 + 7 * k for k in range(10))]
    after = replace(fasted, meals=eaten, refused=fasted.refused[:5])
    assert signs(replace(after, weighings=_series(*STEADY, 394, 390, 386, 384))) == ()
    on = replace(after, weighings=_series(*STEADY, 394, 390, 384, 378, 372, 360))
    (found,) = signs(on)
    assert (found.sign, found.level) == (Sign.WASTING, Level.LOOK_SOON)
    assert "3 % are taken off that level for its fast of 40 days" in found.words
    low = replace(after, weighings=_series(*STEADY, 394, 390, 386, 374))
    assert signs(low) == () and lighter_unexplained(low)


def test_a_clutch_explains_a_fall_and_ends_the_old_level() -> None:
    """A note, said once; then the weights after laying are compared among themselves."""
    laid = [DAY + 20]
    course = Course(_series(1500, 1520, 1050), laid=laid)
    found = _only(course)
    assert (found.sign, found.level) == (Sign.AFTER_LAYING, Level.NOTE)
    assert signs(course, day=DAY + 28 + 15) == ()
    assert signs(Course(_series(60, 62, 56), laid=laid)) == ()  # a gecko's two eggs are no news
    assert signs(Course(_series(1500, 1520, 1050, 1060), laid=laid)) == ()
    later = _only(Course(_series(1500, 1520, 1050, 930), laid=laid))
    assert later.sign is Sign.LOSS
    assert later.events == (102, 103)


def test_half_a_year_after_a_clutch_the_eggs_are_no_level() -> None:
    """What she weighed with her eggs is left out of what she usually weighs."""
    masses = [1000.0] * 4 + [1250.0] * 4 + [900.0] + [1000.0] * 16
    assert signs(Course(_series(*masses), LifeStage.ADULT, laid=[DAY + 7 * 14 + 1])) == ()


def test_a_female_that_is_lighter_after_each_clutch() -> None:
    """A tenth and more below what she weighed after an earlier one."""
    masses = _series(60, 54, 60, 52, 58, 46)
    found = _only(Course(masses, LifeStage.ADULT, laid=[DAY + 13, DAY + 41, DAY + 69]))
    assert (found.sign, found.level) == (Sign.AFTER_LAYING, Level.LOOK_SOON)
    assert found.events == (101, 105) and "vet" in found.words


def test_more_than_a_clutch_may_take_is_to_be_looked_at() -> None:
    """Half the female."""
    found = _only(Course(_series(1500, 1520, 760), laid=[DAY + 20]))
    assert (found.sign, found.level) == (Sign.AFTER_LAYING, Level.LOOK_SOON)
    assert "vet" in found.words


def test_a_shed_explains_nothing() -> None:
    """3 % is within the noise and no note; 12 % is a loss as ever."""
    assert signs(Course(_series(400, 388), sheds=[DAY + 7])) == ()
    assert _only(Course(_series(400, 352), sheds=[DAY + 7])).sign is Sign.LOSS


def test_winter_cooling_explains_some_loss_but_not_ten_percent() -> None:
    """Half of it is a note, said once; beyond is a loss that says so."""
    cooled = [(DAY + 10, inf)]
    course = Course(_series(400, 390, 372), cooled=cooled)
    found = _only(course)
    assert (found.sign, found.level, found.events) == (Sign.COOLING, Level.NOTE, (100, 102))
    assert signs(replace(course, weighings=_series(400, 390, 372, 371))) == ()
    lost = _only(Course(_series(400, 390, 350), cooled=cooled))
    assert (lost.sign, lost.level) == (Sign.LOSS, Level.LOOK_SOON)
    assert "before winter cooling" in lost.words


def _stalling(*masses: float, stage: LifeStage = LifeStage.JUVENILE, every: float = 14.0) -> Course:
    return Course(_series(*masses, every=every), stage)


def test_a_juvenile_that_stops_growing_by_its_own_growth() -> None:
    """After five weeks; not an adult, not in winter cooling, not while it grows."""
    grown = [80 * 1.05**k for k in range(7)]
    flat = _stalling(*grown, 107, 107.5, 107)
    found = _only(flat)
    assert (found.sign, found.level, found.source) == (Sign.STALLED, Level.LOOK_SOON, OUR_RULE)
    assert found.events[-1] == 109 and "its own growth before" in found.words
    assert signs(replace(flat, stage=LifeStage.ADULT)) == ()
    assert signs(replace(flat, stage=None)) == ()
    assert signs(replace(flat, cooled=[(DAY + 110, DAY + 120)])) == ()
    assert signs(_stalling(*[80 * 1.05**k for k in range(12)])) == ()
    assert signs(_stalling(*grown, 107)) == ()


def test_a_hatchling_is_looked_at_after_three_weeks() -> None:
    """It grows by a tenth a week, then by nothing; the next weighing is asked for early."""
    grown = [8 * 1.1**k for k in range(6)]
    assert _only(_stalling(*grown, 12.9, 12.8, 12.9, stage=LifeStage.HATCHLING, every=7))
    assert grew_little(_stalling(*grown, 12.2, stage=LifeStage.HATCHLING, every=7))
    assert not grew_little(_stalling(*grown, 14, stage=LifeStage.HATCHLING, every=7))


@pytest.mark.parametrize(
    ("weekly", "share", "weeks", "told"),
    [
        (0.05, 0.3, 3, {LifeStage.HATCHLING}),
        (0.09, 0.3, 3, {LifeStage.HATCHLING, LifeStage.JUVENILE}),
        (0.03, 0.0, 4, {LifeStage.HATCHLING, LifeStage.JUVENILE, LifeStage.SUBADULT}),
        (0.09, 0.5, 4, {LifeStage.HATCHLING}),
        (0.09, 0.7, 4, set()),
    ],
)
def test_the_younger_it_is_the_sooner_a_slower_pace_is_told(
    weekly: float, share: float, weeks: int, told: set[LifeStage]
) -> None:
    """Nine weeks at a pace, then some at a share of it; by simulated herds, no published limit."""
    grown = [100 * exp(weekly * k) for k in range(10)]
    slow = [grown[-1] * exp(weekly * share * k) for k in range(1, weeks + 1)]
    read = [m * e for m, e in zip(grown + slow, (1.005, 0.995, 1, 0.998, 1.004) * 3, strict=False)]
    found = {s for s in LifeStage if signs(_stalling(*read, stage=s, every=7))}
    assert found == told


def test_a_juvenile_without_a_growth_on_record_by_the_plain_rule() -> None:
    """Less than 2 % in two months."""
    assert _only(_stalling(80, 81, 80, 81, 80, 81)).sign is Sign.STALLED
    assert signs(_stalling(80, 83, 86, 90, 93, 97)) == ()
    assert signs(_stalling(80, 81, 80)) == ()


def test_a_hatchling_that_ate_and_did_not_grow_is_looked_at_after_three_weeks() -> None:
    """One that has not begun to eat may take longer: it lives on its yolk."""
    flat = _stalling(5.5, 5.6, 5.5, 5.6, stage=LifeStage.HATCHLING, every=7)
    ate = replace(flat, meals=tuple(DAY + day for day in (2, 8, 15)))
    assert _only(ate).sign is Sign.STALLED and signs(flat) == ()
    assert signs(replace(ate, weighings=_series(5.5, 6, 6.4, 6.9, every=7))) == ()


def test_a_juvenile_that_loses_has_a_loss_and_not_also_a_stall() -> None:
    """One sign for one thing."""
    assert _only(_stalling(80, 81, 80, 79, 76, 70)).sign is Sign.LOSS


def test_an_adult_that_gains_a_tenth_in_a_year_is_told_of_once() -> None:
    """Not of one that was still growing a year ago, nor of one that laid."""
    masses = [1000 * (1 + 0.0045 * k) for k in range(36)]
    course = Course(_series(*masses, every=14), LifeStage.ADULT)
    ends = [n for n in range(4, 37) if signs(replace(course, weighings=_series(*masses[:n])))]
    assert len(ends) == 1
    first = replace(course, weighings=_series(*masses[: ends[0]]))
    assert _only(first).sign is Sign.YEARS_GAIN and _only(first).level is Level.NOTE
    assert signs(replace(first, stage=LifeStage.SUBADULT)) == ()
    assert signs(replace(first, laid=[DAY + 100])) == ()
    assert signs(first, day=first.weighings.days[-1] + 15) == ()


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
