"""Cautions that go with meals."""

from __future__ import annotations

import pytest

from warmside.plugins.feeding.care.cautions import cautions, digest
from warmside.plugins.feeding.care.species import species_for, species_rows


@pytest.mark.parametrize("name", species_rows())
def test_every_species_defers_to_a_vet_and_to_soap(name: str) -> None:
    codes = [c.code for c in cautions(species_rows()[name])]
    assert codes[0] == "vet" and "hands" in codes


def test_snakes_get_the_cautions_of_thawed_and_live_prey() -> None:
    words = " ".join(c.words for c in cautions(species_rows()["Boa constrictor"]))
    kitchen, rodent = "never in its sink or a microwave", "live rodent unattended"
    for needed in (kitchen, rodent, "local law", "Salmonella"):
        assert needed in words
    assert "no prey wider" in words


def test_venomous_groups_are_warned_of() -> None:
    viper = species_for("Bitis arietans", "viper")
    assert viper and "venom" in [c.code for c in cautions(viper, "viper")]
    assert "venom" not in [c.code for c in cautions(viper, "colubrid")]


def test_a_round_says_each_caution_once() -> None:
    found = digest(tuple(species_rows().values()))
    assert len(found) == len(set(found)) and {"thaw", "insects"} <= {c.code for c in found}
