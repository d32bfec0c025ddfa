"""Live feeders are fed well a day before they are offered: one task a batch, quiet otherwise."""

from __future__ import annotations

from typing import Any

import pytest

from warmside.testing import Keeper

WHAT = "feed the live insects for tomorrow"


def gut_loading(keeper: Keeper) -> list[dict[str, Any]]:
    return [t for t in keeper.json("today")["tasks"] if t["what"] == WHAT]


@pytest.fixture
def crickets_tomorrow(room: Keeper) -> Keeper:
    """Both geckos ate on 4 March; Basil's insects are due again on 6 March."""
    room.run("feeding", "diet", "part", "BAS", "insects", "--every", "2", "--alone")
    room.run("feeding", "diet", "part", "MOS", "insects", "--every", "30", "--alone")
    for code in ("BAS", "MOS"):
        room.run(
            "record", "fed", code, "--item", "adult cricket", "--count", "1", "--at", "2026-03-04"
        )
    return room


def test_insects_for_tomorrow_are_fed_today_once_for_all(crickets_tomorrow: Keeper) -> None:
    (task,) = gut_loading(crickets_tomorrow)
    assert "half-grown cricket for 1 animal on 2026-03-06" in task["why"]
    crickets_tomorrow.run("done", str(task["number"]))
    assert gut_loading(crickets_tomorrow) == []
    crickets_tomorrow.run("undo")
    assert len(gut_loading(crickets_tomorrow)) == 1


def test_it_is_quiet_where_insects_are_offered_today_too(crickets_tomorrow: Keeper) -> None:
    crickets_tomorrow.pass_days(1)
    due = [t["what"] for t in crickets_tomorrow.json("today")["tasks"] if t["animal"] == "BAS"]
    assert any("cricket" in what for what in due), "else this test shows nothing"
    assert gut_loading(crickets_tomorrow) == []


def test_animals_that_eat_no_insects_ask_for_none(evening: Keeper) -> None:
    for code in ("BAS", "MOS"):
        evening.run("feeding", "diet", "set", code, "plants", "--alone")
    assert any("thaw" in t["what"] for t in evening.json("today")["tasks"])
    assert gut_loading(evening) == []
