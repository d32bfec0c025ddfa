"""The current stage, the next one and its window."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from warmside.plugins.shed.cycles.cycle import Seen, Stage, read
from warmside.plugins.shed.cycles.now import where
from warmside.plugins.shed.cycles.shipped import window

DAY = date(2025, 6, 1)


def test_nothing_seen_means_no_stage() -> None:
    now = where(read([], DAY))
    assert now.stage is None
    assert now.shed is None


def test_after_a_shed_there_is_no_stage() -> None:
    assert where(read([Seen(DAY, Stage.SHED)], DAY)).stage is None


def test_an_opaque_animal_is_expected_clear_and_then_to_shed() -> None:
    now = where(read([Seen(DAY, Stage.OPAQUE, 3)], DAY + timedelta(days=1)))
    assert (now.stage, now.since, now.events) == (Stage.OPAQUE, DAY, (3,))
    assert now.next_stage is not None
    assert now.shed is not None
    assert now.next_stage.stage is Stage.CLEAR
    assert (now.next_stage.low, now.next_stage.high) == (date(2025, 6, 3), date(2025, 6, 5))
    assert (now.shed.low, now.shed.high) == (date(2025, 6, 5), date(2025, 6, 9))
    assert not now.shed.late(date(2025, 6, 9))
    assert now.shed.late(date(2025, 6, 10))


def test_a_clear_animal_goes_straight_to_the_shed() -> None:
    now = where(read([Seen(DAY, Stage.CLEAR)], DAY))
    assert now.next_stage == now.shed


def test_a_stage_long_past_is_no_stage_any_more() -> None:
    assert where(read([Seen(DAY, Stage.OPAQUE)], DAY + timedelta(days=30))).stage is None


@pytest.mark.parametrize("stage", [Stage.DULL, Stage.OPAQUE])
def test_the_window_to_the_shed_agrees_with_the_stages_between(stage: Stage) -> None:
    following = tuple(Stage)[stage.rank + 1]
    step, rest = window(f"{stage} to {following}"), window(f"{following} to shed")
    whole = window(f"{stage} to shed")
    assert whole.low_days >= step.low_days
    assert whole.high_days <= step.high_days + rest.high_days


def test_every_window_says_who_says_so() -> None:
    for name in ("dull to opaque", "opaque to clear", "clear to shed", "one cycle", "one shed"):
        days = window(name)
        assert days.low_days <= days.high_days
        assert days.source.text
