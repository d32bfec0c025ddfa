"""A diet for an animal of which neither the species nor the group has a row."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from warmside.testing import Keeper, copy_of


@pytest.fixture(scope="session")
def furnished_pond(furnished_room: Keeper, tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """What `pond` copies, made once."""
    keeper = copy_of(furnished_room, tmp_path_factory.mktemp("pond"))
    keeper.run("species", "add", "Ficta ignota", "--common", "invented newt", "--group", "other")
    keeper.run("animal", "add", "Puddle", "--species", "Ficta ignota", "--since", "2025-01-01")
    keeper.run("record", "weighed", "PUD=30g")
    return keeper


@pytest.fixture
def pond(furnished_pond: Keeper, tmp_path: Path) -> Keeper:
    """Puddle, of the group `other`; 30 g, no diet set."""
    return copy_of(furnished_pond, tmp_path)


def feeding_of(keeper: Keeper) -> list[dict[str, Any]]:
    return [t for t in keeper.json("today")["tasks"] if t["animal"] == "PUD"]


def test_it_has_no_meal_before_its_keeper_says_what_it_eats(pond: Keeper) -> None:
    assert feeding_of(pond) == []
    refused = pond.run("feeding", "plan", "PUD", ok=False)
    assert refused.code == 3 and "feeding diet set" in refused.stderr


def test_a_named_diet_is_planned_in_its_own_rhythm_and_claims_no_stage(pond: Keeper) -> None:
    pond.run("feeding", "diet", "set", "PUD", "insects")
    found = pond.json("feeding", "plan", "PUD")
    assert found["interval_basis"]["rule"] == "every 1 to 4 days at any stage"
    assert "stage" not in found and "meal_low_g" not in found
    assert [t["what"] for t in feeding_of(pond)] == ["feed insects (when last?)"]
    pond.run("undo")
    assert feeding_of(pond) == []


def test_the_keepers_own_share_makes_up_a_meal(pond: Keeper) -> None:
    pond.run("feeding", "diet", "set", "PUD", "insects")
    pond.run("feeding", "diet", "part", "PUD", "insects", "--meal", "2-4", "--every", "3")
    found = pond.json("feeding", "plan", "PUD")
    assert (found["meal_low_g"], found["meal_high_g"]) == pytest.approx((0.6, 1.2))
    assert found["meal_basis"]["rule"] == "2 to 4 % of body mass"
    assert found["meal_basis"]["mark"] == "keeper's own" and "stage" not in found


def test_a_stale_weight_is_not_grown_on_without_figures(pond: Keeper) -> None:
    pond.run("feeding", "diet", "set", "PUD", "insects")
    pond.run("feeding", "diet", "part", "PUD", "insects", "--meal", "2-4")
    pond.pass_days(300)
    found = pond.json("feeding", "plan", "PUD")
    assert found["mass_stale"] and found["mass_high_g"] == 30 > found["mass_low_g"]


def test_a_part_of_ones_own_needs_a_rhythm(pond: Keeper) -> None:
    part = ("feeding", "diet", "part", "PUD", "worms", "--food", "earthworm")
    assert "--every" in pond.run(*part, ok=False).complaint(2)
    pond.run(*part, "--every", "2")
    assert pond.json("feeding", "plan", "PUD")["interval_low_days"] == 2


def test_what_it_burns_is_not_reckoned(pond: Keeper) -> None:
    pond.run("feeding", "diet", "set", "PUD", "insects")
    pond.run("record", "fed", "PUD", "--item", "adult cricket", "--count", "5")
    refused = pond.run("feeding", "balance", "PUD", ok=False)
    assert refused.code == 3 and "ask a vet" in refused.stderr
    assert "Energy balance" not in pond.run("report", "PUD").stdout
    for at in ("2026-03-03", "2026-03-04"):
        pond.run(
            "record", "fed", "PUD", "--item", "adult cricket", "--outcome", "refused", "--at", at
        )
    pond.pass_days(2)
    assert feeding_of(pond), "refusals are read by no energy, and it is offered again"


def test_the_balance_is_told_for_a_diet_without_shares(room: Keeper) -> None:
    """A named diet says how often, never how much."""
    room.run("feeding", "diet", "set", "EMB", "rodents", "--alone")
    room.run("record", "fed", "EMB", "--item", "small rat", "--at", "2026-03-01")
    assert "no usual share is known" in room.run("feeding", "balance", "EMB").stdout
