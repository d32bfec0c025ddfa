"""Cycles read from what was seen, the doubts, and the check of a new entry."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from warmside.plugins.shed.cycles.cycle import DoubtCode, Seen, Stage, doubts_about, read

TODAY = date(2025, 6, 30)
DULL, OPAQUE, CLEAR, SHED = Stage


def on(day: str, stage: Stage, event: int = 0) -> Seen:
    return Seen(date.fromisoformat(day), stage, event)


def test_a_whole_cycle_is_read_in_order_whatever_the_order_of_entry() -> None:
    seen = [
        on("2025-05-08", SHED, 4),
        on("2025-05-01", DULL, 1),
        on("2025-05-07", CLEAR, 3),
        on("2025-05-04", OPAQUE, 2),
    ]
    history = read(seen, TODAY)
    (cycle,) = history.cycles
    assert cycle.events == (1, 2, 3, 4)
    assert cycle.shed == date(2025, 5, 8)
    assert cycle.over
    assert history.doubts == ()


def test_a_stage_seen_on_several_days_counts_from_the_first() -> None:
    history = read([on("2025-06-25", OPAQUE, 1), on("2025-06-27", OPAQUE, 2)], TODAY)
    assert history.cycles[0].last.day == date(2025, 6, 25)
    assert not history.cycles[0].over


def test_an_opaque_stage_with_no_shed_after_it_is_doubted_once_too_long_has_passed() -> None:
    seen = [on("2025-05-01", OPAQUE, 7)]
    assert read(seen, date(2025, 5, 22)).doubts == ()
    (doubt,) = read(seen, date(2025, 5, 23)).doubts
    assert doubt.code is DoubtCode.UNRECORDED
    assert "opaque on 2025-05-01" in doubt.words


def test_an_animal_that_eats_its_slough_has_no_missing_shed() -> None:
    history = read([on("2025-05-01", OPAQUE)], TODAY, eats_slough=True)
    assert history.doubts == ()
    assert history.cycles[0].led_to_shed


def test_dull_skin_alone_is_no_sign_of_a_shed() -> None:
    history = read([on("2025-05-01", DULL)], TODAY)
    assert history.doubts == ()
    assert not history.cycles[0].led_to_shed


def test_clear_before_opaque_is_doubted_and_left_out() -> None:
    history = read([on("2025-06-20", CLEAR, 1), on("2025-06-22", OPAQUE, 2)], TODAY)
    (doubt,) = history.doubts
    assert doubt.code is DoubtCode.ORDER
    assert [s.event for s in doubt.seen] == [1, 2]
    assert history.cycles[0].events == (1,)


def test_a_shed_dated_twice_is_one_shed_and_a_doubt() -> None:
    history = read([on("2025-06-01", SHED, 1), on("2025-06-03", SHED, 2)], TODAY)
    assert len(history.cycles) == 1
    assert [d.code for d in history.doubts] == [DoubtCode.TWICE]


def test_sheds_further_apart_are_two() -> None:
    history = read([on("2025-06-01", SHED), on("2025-06-05", SHED)], TODAY)
    assert len(history.cycles) == 2


def test_what_lies_after_today_is_left_out() -> None:
    assert read([on("2025-07-01", SHED)], TODAY).cycles == ()


def said(*seen: Seen, new: int) -> list[str]:
    return [d.words for d in doubts_about(seen, {new})]


def test_a_new_shed_dated_twice_is_doubted_with_both_days() -> None:
    (words,) = said(on("2025-06-01", SHED, 5), on("2025-06-02", SHED, 6), new=6)
    assert words.startswith("shed on 2025-06-02 is dated twice: shed on 2025-06-01")


def test_the_same_shed_on_the_same_day_is_doubted() -> None:
    assert said(on("2025-06-01", SHED, 5), on("2025-06-01", SHED, 6), new=6)


def test_a_new_stage_out_of_order_is_doubted() -> None:
    (words,) = said(on("2025-06-08", CLEAR, 5), on("2025-06-10", OPAQUE, 6), new=6)
    assert words.startswith("opaque on 2025-06-10 is out of order after clear")


def test_a_stage_entered_late_that_fits_between_others_is_fine() -> None:
    opaque = on("2025-06-08", OPAQUE, 5)
    assert said(opaque, on("2025-06-05", DULL, 6), new=6) == []
    assert said(opaque, on("2025-06-12", SHED, 6), new=6) == []


def test_an_old_doubt_is_none_about_a_new_entry() -> None:
    seen = [on("2025-05-01", SHED, 1), on("2025-05-02", SHED, 2), on("2025-06-10", OPAQUE, 3)]
    assert said(*seen, new=3) == []
    assert said(*seen, new=2)


sights = st.lists(
    st.builds(
        Seen,
        st.integers(0, 120).map(lambda d: date(2025, 3, 1) + timedelta(days=d)),
        st.sampled_from(Stage),
        st.integers(1, 9),
    ),
    max_size=12,
)


@given(sights, st.randoms())
def test_the_order_of_entry_never_matters(seen: list[Seen], random: object) -> None:
    shuffled = list(seen)
    random.shuffle(shuffled)  # type: ignore[attr-defined]
    assert read(seen, TODAY) == read(shuffled, TODAY)


@given(sights)
def test_within_a_cycle_stages_rise_and_days_never_fall(seen: list[Seen]) -> None:
    for cycle in read(seen, TODAY).cycles:
        ranks = [s.stage.rank for s in cycle.seen]
        days = [s.day for s in cycle.seen]
        assert ranks == sorted(set(ranks))
        assert days == sorted(days)


@given(sights)
def test_every_shed_is_a_cycle_or_a_doubt(seen: list[Seen]) -> None:
    history = read(seen, TODAY)
    sheds = sum(c.shed is not None for c in history.cycles)
    twice = sum(d.code is DoubtCode.TWICE for d in history.doubts)
    assert sheds + twice == sum(s.stage is SHED and s.day <= TODAY for s in seen)
