"""Cautions that go with meals."""

from __future__ import annotations

import pytest

from warmside.plugins.feeding.care.cautions import VET, cautions, digest, in_brief
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


def test_a_report_keeps_whom_to_ask_in_full_and_each_other_danger_in_few_words() -> None:
    for species in species_rows().values():
        whole = cautions(species)
        said = in_brief(whole)
        assert said[0] == VET.words
        assert all(c.brief in said[-1] for c in whole if c is not VET)
        assert len(said[-1]) < sum(len(c.words) for c in whole) / 2
    viper = in_brief(cautions(species_rows()["Boa constrictor"], "viper"))
    assert "by trained people, never alone" in viper[1]
