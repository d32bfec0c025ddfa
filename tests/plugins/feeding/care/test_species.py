"""The species table and the defaults of a group."""

from __future__ import annotations

import pytest

from warmside.core.record.species import GROUPS, ShippedSpecies, shipped
from warmside.core.values.basis import Mark
from warmside.core.values.errors import BadInput
from warmside.plugins.feeding.care.species import (
    Species,
    Stage,
    group_rows,
    species_for,
    species_rows,
    with_own,
)
from warmside.plugins.feeding.prey.classes import prey_of_kinds

WITHOUT = ["tortoise", "turtle", "monitor", "iguana", "other"]
ALL = [*species_rows().values(), *group_rows().values()]


def test_about_fifteen_species_are_known() -> None:
    assert len(species_rows()) >= 15
    assert {s.group for s in species_rows().values()} == {"snake", "lizard"}


@pytest.mark.parametrize("species", ALL, ids=lambda s: s.common)
def test_every_row_is_sound_and_marked(species: Species) -> None:
    assert 0 < species.juvenile_from_g < species.adult_from_g
    for stage in Stage:
        for span in (
            species.meal_percent[stage],
            species.interval_days[stage],
            species.growth[stage],
            species.plant_percent[stage],
        ):
            assert 0 <= span[0] <= span[1]
        assert species.meal_percent[stage][0] > 0 and species.meal_percent[stage][1] <= 20
        assert species.interval_days[stage][0] >= 1
        assert species.plant_percent[stage][1] < 100
    assert 15 <= species.night_c[0] <= species.day_c[1] <= 37
    assert prey_of_kinds(species.prey)
    assert species.source.mark is Mark.COMMON_PRACTICE
    assert species.temperature_source.text


@pytest.mark.parametrize("species", ALL, ids=lambda s: s.common)
def test_plants_are_named_where_they_are_eaten(species: Species) -> None:
    assert bool(species.plants) == (species.plant_percent[Stage.ADULT][1] > 0)
    assert all(p.plant for p in prey_of_kinds(species.plants))


def test_a_subspecies_has_the_row_of_its_species() -> None:
    found = species_for("Lampropeltis triangulum campbelli", "snake")
    assert found is not None and found.common == "milk snake" and not found.is_default


def test_an_unknown_species_has_the_defaults_of_its_group_and_says_so() -> None:
    found = species_for("Coelognathus radiatus", "Colubrid")
    assert found is not None and found.is_default
    assert found.latin == "Coelognathus radiatus"
    assert "no feeding row for this species" in found.words and "snakes in general" in found.words


@pytest.mark.parametrize("group", WITHOUT)
def test_nothing_is_said_of_a_group_without_defaults(group: str) -> None:
    assert species_for("Nomen nudum", group) is None


@pytest.mark.parametrize("group", sorted(set(GROUPS) - set(WITHOUT)))
def test_every_other_group_of_the_collection_has_defaults(group: str) -> None:
    found = species_for("Nomen nudum", group)
    assert found is not None and found.is_default


@pytest.mark.parametrize("row", shipped(), ids=lambda row: row.scientific)
def test_the_species_that_ship_with_the_core_have_a_row(row: ShippedSpecies) -> None:
    found = species_for(row.scientific, row.group)
    assert (found is None) == (row.group == "tortoise")
    assert found is None or not found.is_default


def test_stages_go_by_mass() -> None:
    boa = species_rows()["Boa constrictor"]
    assert [boa.stage(m) for m in (399, 400, 2999, 3000)] == [
        Stage.HATCHLING,
        Stage.JUVENILE,
        Stage.JUVENILE,
        Stage.ADULT,
    ]


def test_without_a_stage_the_interval_spans_all_stages() -> None:
    assert species_rows()["Boa constrictor"].interval(None) == (7, 28)


def test_the_keepers_own_values_replace_the_row_and_are_marked() -> None:
    own = with_own(species_rows()["Boa constrictor"], interval_days=(30, 35), prey=("rat-small",))
    assert own.interval(Stage.ADULT) == (30, 35)
    assert own.interval_source.mark is Mark.KEEPERS_OWN
    assert own.meal_source.mark is Mark.COMMON_PRACTICE
    assert [p.code for p in prey_of_kinds(own.prey)] == ["rat-small"]


@pytest.mark.parametrize("days", [(0, 5), (5, 900)])
def test_absurd_own_intervals_are_refused(days: tuple[float, float]) -> None:
    with pytest.raises(BadInput, match="give 1 to 180"):
        with_own(species_rows()["Boa constrictor"], interval_days=days)


def test_an_absurd_own_meal_size_is_refused() -> None:
    with pytest.raises(BadInput, match="percent of body mass"):
        with_own(species_rows()["Boa constrictor"], meal_percent=(5, 90))
