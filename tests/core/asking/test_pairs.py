"""Which pairs may have young."""

from __future__ import annotations

from pathlib import Path

import pytest

from warmside.testing import Keeper, copy_of, new_keeper


@pytest.fixture(scope="session")
def grown(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """Grown Fern and Rust, young Dot and Dash, and Sky of another species, each in a box."""
    keeper = new_keeper(tmp_path_factory.mktemp("pairs"))
    for name, sex, hatched, species in (
        ("Fern", "female", "2018", "corn snake"),
        ("Rust", "male", "2018", "corn snake"),
        ("Dot", "female", "2026-02", "corn snake"),
        ("Dash", "male", "2026-02", "corn snake"),
        ("Sky", "male", "2015", "ball python"),
    ):
        keeper.run("enclosure", "add", f"Box of {name}", "--code", f"X{name[:2]}")
        keeper.run(
            *("animal", "add", name, "--species", species, "--sex", sex),
            *("--hatched", hatched, "--enclosure", f"X{name[:2]}", "--since", "2026-03-01"),
        )
    return keeper


@pytest.fixture
def mine(grown: Keeper, tmp_path: Path) -> Keeper:
    return copy_of(grown, tmp_path)


def pairs(keeper: Keeper) -> list[tuple[str, str]]:
    with keeper.ask() as ask:
        animals = ask.book.animals
        return [
            (animals[p.first.animal_id or 0].name, animals[p.second.animal_id or 0].name)
            for p in ask.pairs(ask.book.today)
        ]


def test_animals_that_live_apart_are_no_pair(mine: Keeper) -> None:
    assert pairs(mine) == []


def test_grown_ones_of_one_species_in_one_enclosure_are_a_pair(mine: Keeper) -> None:
    mine.run("move", "Rust", "Sky", "--to", "XFe")
    assert pairs(mine) == [("Fern", "Rust")]


def test_young_that_are_raised_together_are_no_pair(mine: Keeper) -> None:
    mine.run("move", "Dot", "--to", "XDa")
    assert pairs(mine) == []


def test_those_that_mated_are_a_pair_for_two_months(mine: Keeper) -> None:
    mine.run("record", "mated", "Rust", "--partner", "Fern")
    mine.run("record", "mated", "Fern", "--partner", "Rust")
    assert pairs(mine) == [("Fern", "Rust")]
    mine.pass_days(60)
    assert pairs(mine) == [("Fern", "Rust")]
    mine.pass_days(1)
    assert pairs(mine) == []


def test_a_partner_that_is_not_on_record_makes_no_pair(mine: Keeper) -> None:
    mine.run("record", "mated", "Fern", "--partner-words", "a male of A. Nother")
    assert pairs(mine) == []


def paired(keeper: Keeper, state: str, dam: str = "Fern", sire: str = "Rust") -> None:
    keeper.run("record", "pairing", dam, "--partner", sire, "--state", state)


def test_a_pairing_that_is_planned_makes_a_pair_before_they_meet(mine: Keeper) -> None:
    paired(mine, "planned")
    paired(mine, "together", "Rust", "Fern")  # the same pair, told from his side
    assert pairs(mine) == [("Fern", "Rust")]


@pytest.mark.parametrize("state", ["apart", "given up"])
def test_a_pairing_that_is_over_makes_none(mine: Keeper, state: str) -> None:
    paired(mine, "planned")
    paired(mine, state)
    assert pairs(mine) == []
    paired(mine, "planned")
    assert pairs(mine) == [("Fern", "Rust")]


def test_a_plan_of_more_than_a_year_ago_was_forgotten(mine: Keeper) -> None:
    paired(mine, "planned")
    mine.pass_days(365)
    assert pairs(mine) == [("Fern", "Rust")]
    mine.pass_days(1)
    assert pairs(mine) == []


def test_a_plan_is_over_once_she_has_laid_and_a_pair_that_is_together_stays_one(
    mine: Keeper,
) -> None:
    paired(mine, "planned")
    mine.pass_days(60)
    mine.run("record", "laid", "Fern", "--count", "12")
    assert pairs(mine) == []
    paired(mine, "together")
    mine.pass_days(60)
    mine.run("record", "laid", "Fern", "--count", "8")
    assert pairs(mine) == [("Fern", "Rust")]
