"""The homes of species as latitudes."""

from __future__ import annotations

from datetime import date

import pytest

from warmside.api import shipped_species_named, sourced_rows
from warmside.plugins.habitat.light.day_length import day_hours
from warmside.plugins.habitat.light.home import home_of


def test_every_home_is_of_a_species_that_ships_and_no_wider_than_a_day_can_be_told_for() -> None:
    rows = sourced_rows("warmside.plugins.habitat", "homes", "home")
    assert len(rows) > 20
    for row in rows:
        assert shipped_species_named(row["scientific"]).scientific == row["scientific"]
        south, north = row["latitude"]
        assert -60 < south < north < 60 and north - south <= 25


def test_a_subspecies_has_the_home_of_its_species() -> None:
    assert home_of("Testudo hermanni boettgeri") == home_of("Testudo hermanni") is not None
    assert home_of("Boa constrictor") is None


def test_the_longest_day_of_a_southern_home_is_in_december() -> None:
    """28.5 degrees south, near Brisbane (27.5), whose longest day has 13 h 52 min (from memory)."""
    home = home_of("Pogona vitticeps")
    assert home is not None
    assert day_hours(-27.5, date(2026, 12, 21)) == pytest.approx(13 + 52 / 60, abs=3 / 60)
    assert day_hours(home.middle, date(2026, 12, 21)) > day_hours(home.middle, date(2026, 6, 21))


@pytest.mark.parametrize(
    ("species", "latitude"),
    [
        ("Correlophus ciliatus", -20.417),  # Nehoue River: Sanchez et al. 2015, Herpetology Notes 8
        ("Correlophus ciliatus", -22.6),  # Isle of Pines: Bauer et al. 2012, Zootaxa 3404
        ("Centrochelys sulcata", 12.0),  # CITES, proposal 11.38: between 12 and 18 north
        ("Centrochelys sulcata", 18.0),
        ("Uromastyx ornata", 28.5),  # southern Sinai: Wilms & Sindaco 2012, IUCN
        ("Physignathus cocincinus", 22.5),  # Hekou in Yunnan: Stuart et al. 2019, IUCN
    ],
)
def test_places_where_a_species_is_known_to_live_lie_in_its_home(
    species: str, latitude: float
) -> None:
    home = home_of(species)
    assert home is not None and home.south <= latitude <= home.north
