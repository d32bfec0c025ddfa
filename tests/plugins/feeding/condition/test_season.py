"""What is usual for a species through the year."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from warmside.core.values.basis import Mark
from warmside.plugins.feeding.condition.season import NONE, Season, season_of, vet_days

WINTER = [date(2025, 11, 1) + timedelta(days=7 * n) for n in range(12)]
SUMMER = [date(2026, 6, 1) + timedelta(days=7 * n) for n in range(8)]


def known(latin: str) -> Season:
    found = season_of(latin)
    assert found is not None
    return found


@pytest.mark.parametrize("latin", ["Python regius", "Boa imperator", "Centrochelys sulcata"])
def test_who_is_never_cooled_for_winter(latin: str) -> None:
    """Ball pythons, boas: Zentralverband ZZF 2015; sulcatas: vetonthenet (both secondary)."""
    assert known(latin).winter == NONE


@pytest.mark.parametrize(
    ("latin", "weeks"), [("Pogona vitticeps", 4), ("Eublepharis macularius", 4)]
)
def test_how_long_a_rest_is_at_least(latin: str, weeks: int) -> None:
    """4 to 8 weeks: Bundesverband BNA in the press, 2019 (secondary)."""
    season = known(latin)
    assert season.rest_weeks[0] == weeks and season.source.mark is Mark.SECONDARY


def test_a_tortoise_rests_at_about_five_degrees() -> None:
    """About 5 °C: Hedley, Royal Veterinary College 2023; 2 to 6: BNA 2019 (secondary)."""
    assert known("Testudo hermanni boettgeri").rest_c == (2, 6)


def test_a_usual_fast_is_of_a_sex_a_stage_and_a_time() -> None:
    (fast,) = known("Pantherophis guttatus").fasts
    assert fast.is_of("male", "adult") and fast.is_of("unknown", "adult")
    assert not fast.is_of("female", "adult") and not fast.is_of("male", "juvenile")
    (python,) = known("Python regius").fasts
    assert python.covers(WINTER) and not python.covers(SUMMER)


def test_a_genus_stands_for_its_species_and_the_unknown_for_nothing() -> None:
    assert season_of("Lampropeltis pyromelana") == season_of("Lampropeltis getula")
    assert season_of("Varanus salvator") is None


@pytest.mark.parametrize("form", ["snake", "lizard", "tortoise", "turtle"])
def test_of_an_unknown_stage_the_shortest_time_counts(form: str) -> None:
    stages = ("hatchling", "juvenile", "subadult", "adult")
    assert vet_days(form, None)[0] == min(vet_days(form, s)[0] for s in stages)
