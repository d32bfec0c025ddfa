"""One answer for the life stage of an animal of the record, with the keeper's own values."""

from __future__ import annotations

from datetime import date

import pytest

from warmside.core.record.species.life_stage import LifeStage
from warmside.core.values.basis import Mark
from warmside.testing import Keeper


@pytest.fixture
def house(keeper: Keeper) -> Keeper:
    """A corn snake of unknown age, and a gecko hatched last year."""
    keeper.run("enclosure", "add", "Shelf")
    for name, *more in (
        ("Ember", "corn snake", "--since", "2020-01-01"),
        ("Moss", "leopard gecko", "--hatched", "2025-08", "--since", "2025-09-01"),
    ):
        keeper.run("animal", "add", name, "--species", *more, "--enclosure", "SHE")
    return keeper


def stage(house: Keeper, code: str, on: str = "2026-03-05") -> tuple[LifeStage | None, str]:
    with house.ask() as ask:
        found = ask.stage(ask.book.animal(code).id, date.fromisoformat(on))
        return found.stage, found.reason


def test_it_is_at_least_as_old_as_it_has_been_here(house: Keeper) -> None:
    assert stage(house, "EMB") == (LifeStage.ADULT, "at least 6 y 2 m old, adult from 3 y")
    assert stage(house, "EMB", "2021-01-01")[0] is None


def test_the_newest_weighing_up_to_the_day_counts(house: Keeper) -> None:
    house.run("record", "weighed", "MOS=6g", "--at", "2025-10-01")
    house.run("record", "weighed", "MOS=25g", "--at", "2026-03-01")
    assert stage(house, "MOS", "2025-10-02")[0] is LifeStage.HATCHLING
    assert stage(house, "MOS") == (
        LifeStage.SUBADULT,
        "weighs 25 g; juvenile from 8 g, subadult from 20 g, adult from 40 g",
    )


def test_the_keepers_own_limit_comes_first_and_is_undone(house: Keeper) -> None:
    house.run("record", "weighed", "MOS=25g", "--at", "2026-03-01")
    house.run("species", "set", "leopard gecko", "adult_mass", "30g")
    house.run("animal", "set", "MOS", "adult_mass", "24g", "--note", "a dwarf line, by its vet")
    with house.ask() as ask:
        found = ask.stage(ask.book.animal("MOS").id, date(2026, 3, 5))
    assert found.stage is LifeStage.ADULT
    assert found.basis.source.mark is Mark.KEEPERS_OWN
    house.run("undo")
    assert stage(house, "MOS")[1].endswith("adult from 30 g")


def test_a_species_without_a_row_takes_the_keepers_values(house: Keeper) -> None:
    house.run("species", "add", "Gekko fictus", "--group", "gecko")
    house.run("animal", "add", "Ash", "--species", "Gekko fictus", "--enclosure", "SHE")
    house.run("record", "weighed", "ASH=25g")
    assert stage(house, "ASH")[0] is None
    house.run("species", "set", "Gekko fictus", "adult_mass", "20g")
    assert stage(house, "ASH")[0] is LifeStage.ADULT


def test_what_cannot_be_set_is_refused_in_one_line(house: Keeper) -> None:
    for words in (
        ("species", "set", "corn snake", "target_mass", "30g"),
        ("animal", "set", "EMB", "target_mass", "heavy"),
    ):
        assert house.run(*words, ok=False).code == 2
    assert house.run("animal", "set", "EMB", "color", "red", ok=False).code == 3
