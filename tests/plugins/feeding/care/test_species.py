"""The species table and the defaults of a group."""

from __future__ import annotations

import pytest

from warmside.core.record.species.known import GROUPS, ShippedSpecies, shipped
from warmside.core.values.basis import Mark
from warmside.core.values.errors import BadInput
from warmside.plugins.feeding.care.diets import Stage, rhythm_words
from warmside.plugins.feeding.care.species import (
    Species,
    group_rows,
    species_for,
    species_rows,
    with_own,
)
from warmside.plugins.feeding.prey.classes import prey_of_kinds

WITHOUT = ["other"]
ALL = [*species_rows().values(), *group_rows().values()]


def test_what_people_keep_is_known() -> None:
    assert len(species_rows()) >= 40
    assert {s.group for s in species_rows().values()} == {"snake", "lizard", "tortoise", "turtle"}


@pytest.mark.parametrize("species", ALL, ids=lambda s: s.common)
def test_every_row_is_sound_and_marked(species: Species) -> None:
    assert list(species.from_g) == sorted(species.from_g) and species.from_g[0] > 0
    assert all(0 <= low <= high for low, high in species.growth.values())
    assert 12 <= species.night_c[0] <= species.day_c[1] <= 40
    assert species.source.text and species.temperature_source.text


@pytest.mark.parametrize("species", species_rows().values(), ids=lambda s: s.common)
def test_every_species_has_a_staple_for_each_stage(species: Species) -> None:
    assert set(species.part.days) == set(Stage)
    for part in species.diet.parts:
        assert part.classes() and part.source.text and part.percent_source.text
        assert part.percent or part.portion, "how much is said in one of two ways"
        for stage, (low, high) in part.days.items():
            assert 1 <= low <= high <= 60
            if stage in part.percent:
                assert 0 < part.percent[stage][0] <= part.percent[stage][1] <= 20
            assert 1 <= part.feeds_at(stage)[0] <= part.feeds_at(stage)[1] <= 4


@pytest.mark.parametrize("species", group_rows().values(), ids=lambda s: s.common)
def test_a_group_names_no_food_and_no_share(species: Species) -> None:
    assert species.is_default and species.diet.parts == ()
    assert species.prey == () and species.meal_percent == {}
    assert set(species.interval_days) == set(Stage)


def test_a_subspecies_has_the_row_of_its_species() -> None:
    found = species_for("Lampropeltis triangulum campbelli", "snake")
    assert found is not None and found.common == "milk snake" and not found.is_default


def test_an_unknown_species_is_not_told_what_it_eats() -> None:
    found = species_for("Coelognathus radiatus", "Colubrid")
    assert found is not None and found.is_default and not found.diet.parts
    assert found.latin == "Coelognathus radiatus"
    said = found.words_at(tuple(Stage))
    assert "what it eats is not known here" in said and "snakes in general" in said


@pytest.mark.parametrize(
    ("days", "said"),
    [
        ((1, 1), "daily"),
        ((2, 3), "every 2 to 3 days"),
        ((3, 4), "twice a week"),
        ((3, 7), "1 to 2 times a week"),
        ((5, 7), "every 5 to 7 days"),
        ((7, 7), "once a week"),
        ((14, 28), "every 14 to 28 days"),
    ],
)
def test_a_rhythm_is_said_as_keepers_say_it(days: tuple[float, float], said: str) -> None:
    assert rhythm_words(days) == said


def test_what_is_of_hatchlings_is_said_of_them_alone() -> None:
    python = species_rows()["Python regius"]
    assert "first meal" in python.words_at((Stage.HATCHLING,))
    assert "first meal" in python.words_at(tuple(Stage))
    assert "first meal" not in python.words_at((Stage.SUBADULT, Stage.ADULT))


def test_a_sex_that_is_fed_otherwise_has_its_own_span_and_the_unknown_one_both() -> None:
    boa = species_rows()["Eryx colubrinus"]
    male, female = boa.for_sex("male"), boa.for_sex("female")
    grown = (Stage.ADULT,)
    assert (male.interval(grown), female.interval(grown)) == ((14, 21), (10, 14))
    assert boa.interval(grown) == boa.for_sex("unknown").interval(grown) == (10, 21)
    assert male.interval((Stage.JUVENILE,)) == female.interval((Stage.JUVENILE,)) == (7, 10)


def test_the_keepers_own_interval_comes_before_that_of_a_sex() -> None:
    male = with_own(species_rows()["Eryx colubrinus"].for_sex("male"), interval_days=(9, 9))
    assert male.interval((Stage.ADULT,)) == (9, 9)


@pytest.mark.parametrize(
    ("name", "group"),
    [
        ("Uromastyx ornata", "agama"),
        ("Uromastyx nigriventris", "agama"),
        ("Corucia zebrata", "skink"),
        ("Dasypeltis scabra", "colubrid"),
        ("Dasypeltis fasciata", "colubrid"),
        ("Iguana iguana", "iguana"),
        ("Testudo hermanni", "tortoise"),
    ],
)
def test_who_eats_neither_is_never_offered_insects_or_mice(name: str, group: str) -> None:
    """Plant eaters: Stahl & Donoghue 2010, Small Animal Clinical Nutrition 5th ed., Table 71-1

    (Uromastyx, Corucia, Iguana, tortoises). Dasypeltis eats eggs only: from memory (high).
    """
    found = species_for(name, group)
    assert found is not None
    assert not found.diet.has("insect", "rodent", "bird", "fish", "worm")


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
    assert found is not None and not found.is_default


def test_the_interval_spans_the_stages_that_are_possible() -> None:
    boa = species_rows()["Boa constrictor"]
    assert boa.interval(tuple(Stage)) == (7, 42)
    assert boa.interval((Stage.SUBADULT, Stage.ADULT)) == (14, 42)
    assert boa.interval((Stage.ADULT,)) == (28, 42)


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
