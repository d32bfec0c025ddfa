"""The shipped species are named right and found by either name."""

from __future__ import annotations

import re

import pytest

from warmside.core.record import tables
from warmside.core.record.entities import SEX_SYSTEMS, Species
from warmside.core.record.species.known import GROUPS, ShippedSpecies, find, shipped
from warmside.core.values.basis import Mark
from warmside.core.values.errors import NotFound
from warmside.testing import Keeper

KNOWN = [Species(n, s.scientific, s.common, s.group, s.sex_system) for n, s in enumerate(shipped())]


def test_what_people_keep_is_shipped_once_each() -> None:
    names = [s.scientific for s in shipped()]
    assert len(names) >= 50
    assert len({n.casefold() for n in names}) == len(names)
    assert len({s.common.casefold() for s in shipped()}) == len(names)


@pytest.mark.parametrize("row", shipped(), ids=lambda s: s.scientific)
def test_every_row_says_what_it_is_and_where_that_is_from(row: ShippedSpecies) -> None:
    assert re.fullmatch(r"[A-Z][a-z]+ [a-z]+( [a-z]+)?", row.scientific)
    assert row.group in GROUPS
    assert row.sex_system in SEX_SYSTEMS
    assert row.source
    assert row.mark in {m.value for m in Mark}


@pytest.mark.parametrize(
    ("scientific", "system"),
    [
        ("Python regius", "XX/XY"),
        ("Boa imperator", "XX/XY"),
        ("Eublepharis macularius", "temperature"),
        ("Trachemys scripta", "temperature"),
    ],
)
def test_sex_determination_of_well_studied_species(scientific: str, system: str) -> None:
    """Pythons and boas: Gamble et al. 2017, Curr Biol 27:2148 (XX/XY found in both families).

    Leopard gecko: Viets et al. 1993, J Exp Zool 265:679; slider: Bull & Vogt 1979, Science
    206:1186 (temperature); both from memory.
    """
    assert find(scientific, KNOWN).sex_system == system


@pytest.mark.parametrize(
    "typed", ["Python regius", "python regius", " ball python ", "Ball Python", "regius"]
)
def test_a_species_is_found_by_either_name_or_a_part_that_is_its_own(typed: str) -> None:
    assert find(typed, KNOWN).scientific == "Python regius"


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("bal python", "did you mean 'ball python'?"),
        ("python", "fits several species: "),
        ("unicorn", "there is no species 'unicorn'"),
        ("", "there is no species ''"),
    ],
)
def test_what_is_no_species_gets_a_suggestion(typed: str, told: str) -> None:
    with pytest.raises(NotFound) as missing:
        find(typed, KNOWN)
    assert told in str(missing.value)


def test_a_name_in_full_wins_over_species_that_contain_it() -> None:
    both = [
        Species(1, "Gekko fictus", "gecko", "gecko", "unknown"),
        Species(2, "Gekko altus", "tall gecko", "gecko", "unknown"),
    ]
    assert find("gecko", both).id == 1


def test_a_new_collection_has_the_shipped_species_and_takes_more(keeper: Keeper) -> None:
    listed = keeper.json("species", "list")["species"]
    assert {s["scientific"] for s in listed} == {s.scientific for s in shipped()}
    add = ("species", "add", "Varanus fictus", "--common", "paper monitor", "--group", "monitor")
    assert "Varanus fictus" in keeper.run(*add).stdout
    assert keeper.run(*add, ok=False).code == 4
    keeper.run("animal", "add", "Ash", "--species", "paper monitor")
    assert keeper.json("animal", "list")["animals"][0]["species"] == "Varanus fictus"


def test_a_shipped_species_that_a_file_of_before_lacks_is_found_and_added(keeper: Keeper) -> None:
    with keeper.open().step("as a file of before", keeper.now) as writer:
        (tegu,) = [s for s in writer.book.species.values() if s.common == "Argentine tegu"]
        writer.remove(tables.species, {"id": tegu.id})
    assert "Salvator merianae" not in keeper.run("species", "list").stdout
    keeper.run("animal", "add", "Ash", "--species", "argentine tegu")
    assert keeper.json("animal", "list")["animals"][0]["species"] == "Salvator merianae"
    keeper.run("undo")
    assert "Salvator merianae" not in keeper.run("species", "list").stdout


@pytest.mark.parametrize(
    ("options", "told"),
    [
        (("--group", "snek"), "group cannot be 'snek'"),
        (("--sex-system", "ZZ"), "sex determination cannot be 'ZZ'"),
    ],
)
def test_a_species_of_no_known_group_or_system_is_refused(
    options: tuple[str, str], told: str, keeper: Keeper
) -> None:
    refused = keeper.run("species", "add", "Varanus fictus", *options, ok=False)
    assert refused.code == 2
    assert told in refused.stderr
