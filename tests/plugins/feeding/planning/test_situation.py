"""What is going on with an animal."""

from __future__ import annotations

from datetime import date
from typing import Any

from warmside.core.record.entities import Event
from warmside.plugins.feeding.planning.situation import situation_of


def event(id: int, kind: str, day: str, **data: Any) -> Event:
    return Event(id, kind, 1, None, date.fromisoformat(day), None, data, "", 1, None)


def test_nothing_recorded_is_nothing_known() -> None:
    found = situation_of({})
    assert found.opaque_since is None and found.cooling is None and found.gravid_since is None


def test_an_opaque_stage_holds_until_the_slough() -> None:
    opaque = event(1, "shedding", "2026-03-01", stage="opaque")
    assert situation_of({"shedding": opaque}).opaque_since == date(2026, 3, 1)
    shed = event(2, "shed", "2026-03-04")
    assert situation_of({"shedding": opaque, "shed": shed}).opaque_since is None


def test_an_earlier_slough_does_not_end_a_later_stage() -> None:
    opaque = event(2, "shedding", "2026-03-01", stage="opaque")
    last = {"shedding": opaque, "shed": event(1, "shed", "2026-01-20")}
    assert situation_of(last).opaque_since == date(2026, 3, 1)


def test_cleared_eyes_count_from_the_opaque_stage_before() -> None:
    opaque = event(1, "shedding", "2026-03-01", stage="opaque")
    clear = event(2, "shedding", "2026-03-05", stage="clear")
    found = situation_of({"shedding": clear}, stages=[opaque, clear])
    assert found.opaque_since == date(2026, 3, 1)
    assert situation_of({"shedding": clear}).opaque_since == date(2026, 3, 5)


def test_a_dull_skin_is_no_reason_to_wait() -> None:
    dull = event(1, "shedding", "2026-03-01", stage="dull")
    assert situation_of({"shedding": dull}).opaque_since is None


def test_gravid_until_it_is_over() -> None:
    sure = event(1, "gravid", "2026-02-01", state="confirmed")
    assert situation_of({"gravid": sure}).gravid_since == date(2026, 2, 1)
    assert (
        situation_of({"gravid": event(2, "gravid", "2026-03-01", state="over")}).gravid_since
        is None
    )


def test_cooling_that_ended_knows_when_it_began() -> None:
    begun = event(1, "cooling", "2025-12-01", state="begun")
    ended = event(2, "cooling", "2026-02-20", state="ended")
    assert situation_of({"cooling": begun}).cooling == (date(2025, 12, 1), None)
    both = situation_of({"cooling": ended}, coolings=[begun, ended]).cooling
    assert both == (date(2025, 12, 1), date(2026, 2, 20))
    assert situation_of({"cooling": ended}).cooling == (date(2026, 2, 20), date(2026, 2, 20))


def test_arriving_and_coming_back_are_both_a_journey() -> None:
    last = {
        "arrived": event(1, "arrived", "2025-01-01"),
        "returned": event(2, "returned", "2026-03-01"),
        "moved": event(3, "moved", "2026-03-02"),
    }
    found = situation_of(last)
    assert (found.arrived, found.moved) == (date(2026, 3, 1), date(2026, 3, 2))
