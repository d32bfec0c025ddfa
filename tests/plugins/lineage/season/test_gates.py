"""Whether an animal is fit to be paired, by what is set and what is known."""

from __future__ import annotations

from datetime import date

import pytest

from warmside.api import Basis, Display, PartialDate
from warmside.plugins.lineage.season.gates import Fitness, Gate, Limit, Limits, failed, gates

ON = date(2026, 3, 5)
BASIS = Basis("set in this test")


def judged(who: Fitness, mass: float = 300, age: float = 1095, rest: float = 0) -> dict[str, Gate]:
    limits = Limits(*(Limit(value, BASIS) for value in (mass, age, rest)))
    return {g.what: g for g in gates(who, limits, Display.METRIC, ON)}


def fit(**changes: object) -> Fitness:
    known: dict[str, object] = {
        "sex": "female",
        "mass_g": 350.0,
        "weighed": date(2026, 3, 1),
        "hatched": PartialDate(2022, 5, 1),
        "condition": 3,
        "scored": date(2026, 3, 1),
    }
    return Fitness(**{**known, **changes})  # type: ignore[arg-type]


def test_a_fit_female_holds_all_gates() -> None:
    assert [g.held for g in judged(fit()).values()] == [True, True, True]


@pytest.mark.parametrize(
    ("changes", "gate", "held"),
    [
        ({"mass_g": 299.0}, "mass", False),
        ({"mass_g": 300.0}, "mass", True),
        ({"mass_g": None, "weighed": None}, "mass", None),
        ({"weighed": date(2025, 10, 1)}, "mass", None),  # long ago: she may have lost since
        ({"mass_g": 250.0, "weighed": date(2025, 10, 1)}, "mass", False),
        ({"hatched": PartialDate(2023, 4, 1)}, "age", False),
        ({"hatched": PartialDate(2023)}, "age", None),  # by the year alone it may be either
        ({"hatched": None}, "age", None),
        ({"condition": 2}, "condition", False),
        ({"condition": 5}, "condition", False),
        ({"condition": None, "scored": None}, "condition", None),
    ],
)
def test_a_gate_is_held_not_held_or_not_known(
    changes: dict[str, object], gate: str, held: bool | None
) -> None:
    assert judged(fit(**changes))[gate].held is held


def test_what_is_not_set_is_no_gate_and_a_missing_mass_is_said() -> None:
    found = judged(fit(mass_g=20.0, hatched=PartialDate(2026, 1, 1)), mass=0, age=0)
    assert found["mass"].held is None and "no least mass is set" in found["mass"].words
    assert "age" not in found


def test_a_female_that_laid_of_late_has_not_rested() -> None:
    assert judged(fit(last_laid=date(2025, 12, 1)), rest=270)["rest"].held is False
    assert judged(fit(last_laid=date(2025, 3, 1)), rest=270)["rest"].held is True
    assert judged(fit(), rest=270)["rest"].held is None
    assert "rest" not in judged(fit(sex="male"), rest=270)


def test_only_what_is_known_to_fail_counts_as_failed() -> None:
    found = judged(fit(mass_g=100.0, hatched=None, condition=None))
    assert [g.what for g in failed(iter(found.values()))] == ["mass"]
