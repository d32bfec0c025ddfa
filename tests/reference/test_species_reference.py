"""Shipped figures of species against published limits, body temperatures and masses."""

from __future__ import annotations

import re

import pytest

from warmside.core.record.species.figures import FORM_OF_GROUP, species_figures
from warmside.core.record.species.files import all_species_rows, species_row
from warmside.core.values.basis import Mark

ROWS = {row["scientific"]: row for row in all_species_rows()}
WITH_LIMITS = [name for name, row in ROWS.items() if "too_hot_c" in row]

# Critical thermal maximum (righting lost, death close), °C: Bennett et al. 2018, GlobTherm,
# Sci Data 5:180022; of the species itself or, in brackets there, of a near relative.
CRITICAL_MAXIMUM = {
    "Lampropeltis getula": 42.0,
    "Pituophis catenifer": 40.5,
    "Thamnophis sirtalis": 38.9,
    "Anolis carolinensis": 41.7,
    "Tiliqua scincoides": 43.9,
    "Testudo hermanni": 42.0,
    "Trachemys scripta": 42.3,  # Chrysemys picta
    "Chamaeleo calyptratus": 40.8,  # the least of six Chamaeleo
    "Eublepharis macularius": 41.6,  # Coleonyx
}
# Critical thermal minimum, °C, from the same.
CRITICAL_MINIMUM = {
    "Thamnophis sirtalis": 4.2,
    "Anolis carolinensis": 4.7,
    "Eublepharis macularius": 7.6,
    "Chamaeleo calyptratus": 1.4,
}
# Body temperatures of active wild animals, °C: Meiri 2018, Glob Ecol Biogeogr (traits of lizards).
ACTIVE = {
    "Pogona vitticeps": (32.3, 36.9),
    "Physignathus cocincinus": (25.7, 31.0),
    "Iguana iguana": (33.0, 36.2),
    "Salvator merianae": (35.0, 35.0),
    "Tiliqua scincoides": (31.9, 34.4),
    "Furcifer pardalis": (31.3, 32.0),
    "Anolis carolinensis": (22.2, 34.2),
}
# Adult masses, g: Myhrvold et al. 2015, Ecology 96 (data set E096-269): female, male.
MASSES = {
    "Python regius": (1235, None),
    "Boa imperator": (3532, 3532),
    "Pogona vitticeps": (385, 385),
    "Chamaeleo calyptratus": (110, None),
    "Trachemys scripta": (1813, 900),
    "Testudo hermanni": (1280, None),
    "Thamnophis sirtalis": (170, None),
    "Terrapene carolina": (372, 372),
}


@pytest.mark.parametrize("name", sorted(CRITICAL_MAXIMUM))
def test_the_emergency_comes_degrees_before_righting_is_lost(name: str) -> None:
    figures = species_figures(name)
    assert figures and figures.limits
    assert 3.0 <= CRITICAL_MAXIMUM[name] - figures.limits.hot_emergency <= 10.0


@pytest.mark.parametrize("name", sorted(CRITICAL_MINIMUM))
def test_the_cold_emergency_is_not_colder_than_the_critical_minimum(name: str) -> None:
    figures = species_figures(name)
    assert figures and figures.limits
    assert figures.limits.cold_emergency > CRITICAL_MINIMUM[name]


@pytest.mark.parametrize("name", sorted(ACTIVE))
def test_the_warm_side_lets_it_reach_the_temperature_of_active_wild_ones(name: str) -> None:
    figures = species_figures(name)
    assert figures and figures.warm and figures.limits
    low, high = ACTIVE[name]
    assert figures.warm.high >= low
    assert figures.limits.hot_act + 2.0 >= high or figures.basks


@pytest.mark.parametrize("name", sorted(MASSES))
def test_published_masses_of_grown_animals_are_adults(name: str) -> None:
    figures = species_figures(name)
    assert figures
    for sex, mass_g in zip(("female", "male"), MASSES[name], strict=True):
        from_g = figures.stages[sex].adult_g
        assert mass_g is None or (from_g is not None and mass_g >= from_g)


@pytest.mark.parametrize("name", WITH_LIMITS)
def test_limits_leave_room_for_the_usual_range(name: str) -> None:
    figures = species_figures(name)
    assert figures and figures.limits and figures.warm and figures.cool and figures.night
    limits = figures.limits
    assert limits.cold_emergency < limits.cold_act < limits.hot_act < limits.hot_emergency
    assert figures.cool.high < limits.hot_act
    assert figures.night.low >= limits.cold_emergency
    assert figures.warm.low > limits.cold_act
    assert limits.touch is None or limits.touch >= figures.warm.high - 1.0


@pytest.mark.parametrize("name", sorted(ROWS))
def test_every_row_holds_together(name: str) -> None:
    row, figures = ROWS[name], species_figures(name)
    assert figures and figures.form is FORM_OF_GROUP[row["group"]]
    for sex, one in figures.stages.items():
        starts = (one.juvenile_g, one.subadult_g, one.adult_g)
        assert list(starts) == sorted(starts, key=lambda g: g or 0), sex
        size = figures.adult_g.get(sex)
        assert size is None or one.adult_g is None or one.adult_g <= size.high
    marked = [k.removesuffix("_mark") for k in row if k.endswith("_mark")]
    for source in (row.source, *(row.source_of(part) for part in marked)):
        if source.mark is Mark.PUBLISHED:  # author, year and place
            assert re.search(r"[A-Z]\w+.*\b(19|20)\d\d\b.*[A-Z]", source.text), source.text


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ("Elaphe guttata", "Pantherophis guttatus"),
        ("rhacodactylus ciliatus", "Correlophus ciliatus"),
        ("Pantherophis guttatus guttatus", "Pantherophis guttatus"),
        ("Lampropeltis triangulum hondurensis", "Lampropeltis triangulum hondurensis"),
        ("Lampropeltis triangulum campbelli", "Lampropeltis triangulum"),
        ("Varanus fictus", None),
        ("../secret", None),
        ("", None),
    ],
)
def test_a_row_is_found_by_older_names_and_subspecies(typed: str, found: str | None) -> None:
    row = species_row(typed)
    assert (row["scientific"] if row else None) == found
