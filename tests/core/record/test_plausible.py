"""Doubtful events ask for confirmation and are never passed silently; none is forbidden."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from warmside.core.kinds.shared import SHARED_KINDS
from warmside.core.record.plausible import MASS_JUMP, Known, doubts
from warmside.core.record.whereabouts import Custody
from warmside.core.values.moments import parse_partial_date
from warmside.core.values.quantities import Display
from warmside.testing import Keeper

TODAY = date(2026, 3, 5)
EMBER = Known("Ember", parse_partial_date("2023-07"), Custody.HERE, 400.0)


def about(kind: str, known: Known | None = EMBER, day: date = TODAY, **data: object) -> list[str]:
    dead = next(k.dead for k in SHARED_KINDS if k.name == kind)
    return doubts(kind, day, data, TODAY, known, Display.METRIC, dead=dead)


def test_an_ordinary_event_raises_no_doubt() -> None:
    assert about("weighed", mass_g=412.0) == []
    assert about("fed", item="mouse", mass_g=24.0) == []
    assert about("fed", item="mouse", mass_g=None) == []
    assert about("weighed", replace(EMBER, last_mass_g=None), mass_g=5000.0) == []
    assert about("cleaned", None) == []


@pytest.mark.parametrize(
    ("mass", "told_as"), [(4000.0, "10 times"), (15.4, "only 3.9 % of"), (90_000.0, "220 times")]
)
def test_ten_times_or_a_tenth_of_the_last_weight_is_doubted(mass: float, told_as: str) -> None:
    """Common practice, no source: a digit too many or too few."""
    (told,) = about("weighed", mass_g=mass)
    assert told.endswith(f"is {told_as} the last weight (400 g)")


@given(st.floats(1.001 / MASS_JUMP, 0.999 * MASS_JUMP))
def test_what_lies_between_is_not(ratio: float) -> None:
    assert about("weighed", mass_g=400.0 * ratio) == []


def test_the_future_is_doubted_for_animals_and_enclosures() -> None:
    tomorrow = TODAY + timedelta(days=1)
    assert about("weighed", day=tomorrow, mass_g=400.0) == ["2026-03-06 is in the future"]
    assert about("cleaned", None, day=tomorrow) == ["2026-03-06 is in the future"]


def test_a_day_is_before_hatching_only_when_it_must_be() -> None:
    assert about("observed", day=date(2023, 7, 1)) == []
    (told,) = about("observed", day=date(2023, 6, 30))
    assert told == "2023-06-30 is before Ember hatched (2023-07)"


@pytest.mark.parametrize(
    ("custody", "kind", "doubted"),
    [
        (Custody.DEAD, "fed", True),
        (Custody.DEAD, "arrived", True),
        (Custody.DEAD, "examined", False),  # a post-mortem
        (Custody.LENT_OUT, "fed", True),
        (Custody.LENT_OUT, "returned", False),
        (Custody.LENT_OUT, "moved", True),
        (Custody.DEPARTED, "moved", True),
        (Custody.DEPARTED, "observed", True),
        (Custody.DEPARTED, "arrived", False),
        (Custody.ON_LOAN_HERE, "fed", False),
        (Custody.NEVER_HERE, "arrived", False),
    ],
)
def test_events_of_animals_that_are_not_here_are_doubted(
    custody: Custody, kind: str, doubted: bool
) -> None:
    found = about(kind, replace(EMBER, custody=custody), item="x")
    assert bool(found) is doubted
    if doubted:
        assert found == [f"Ember is recorded as {custody}"]


def test_what_another_keeper_tells_is_not_doubted() -> None:
    lent, dead = (replace(EMBER, custody=c) for c in (Custody.LENT_OUT, Custody.DEAD))
    found = [
        doubts("laid", TODAY, {}, TODAY, who, Display.METRIC, absent=absent)
        for who in (lent, dead)
        for absent in (True, False)
    ]
    assert [bool(f) for f in found] == [False, True, True, True]


def test_a_meal_heavier_than_the_animal_is_doubted() -> None:
    told = about("fed", item="rat", mass_g=401.0)
    assert told == ["the meal is heavier than Ember was at the last weighing"]
    assert about("fed", item="rat", mass_g=400.0) == []


def test_doubts_add_up_and_are_said_in_the_collections_units() -> None:
    early = date(2022, 1, 1)
    found = doubts("weighed", early, {"mass_g": 4000.0}, TODAY, EMBER, Display.IMPERIAL)
    assert len(found) == 2
    assert "lb" in found[1] or "oz" in found[1]


def test_a_doubtful_event_is_written_only_when_confirmed(keeper: Keeper) -> None:
    keeper.run("animal", "add", "Ember", "--species", "ball python", "--hatched", "2023")
    keeper.run("record", "weighed", "EMB=412g", "--at", "2026-03-01")
    refused = keeper.run("record", "weighed", "EMB=4120g", ok=False)
    assert refused.code == 4
    assert refused.stderr == (
        "warmside: weighed: 4.12 kg is 10 times the last weight (412 g); "
        "if it is right, add --confirm\n"
    )
    assert len(keeper.json("history", "--kind", "weighed")["events"]) == 1
    keeper.run("record", "weighed", "EMB=4120g", "--confirm")
    assert len(keeper.json("history", "--kind", "weighed")["events"]) == 2


def test_a_weight_is_compared_with_the_last_one_before_it(keeper: Keeper) -> None:
    keeper.run("animal", "add", "Ember", "--species", "ball python")
    keeper.run("record", "weighed", "EMB=20g", "--at", "2025-01-01")
    keeper.run("record", "weighed", "EMB=150g", "--at", "2025-06-01")
    keeper.run("record", "weighed", "EMB=900g", "--at", "2026-01-01")
    assert keeper.run("record", "weighed", "EMB=21g", "--at", "2025-01-08").code == 0


def test_a_correction_is_not_measured_by_the_weight_that_it_replaces(keeper: Keeper) -> None:
    keeper.run("animal", "add", "Ember", "--species", "ball python")
    keeper.run("record", "weighed", "EMB=4120g")
    assert keeper.run("correct", "2", "mass=412g").code == 0
