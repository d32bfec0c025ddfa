"""Invented animals and one label of each kind."""

from __future__ import annotations

from pathlib import Path

import pytest
from msgspec import Struct

from warmside.plugins.labels.content.animals import Occupant, Sex, animal_card, enclosure_label
from warmside.plugins.labels.content.hazards import find_hazard
from warmside.plugins.labels.content.label import Label
from warmside.plugins.labels.content.signs import door_sign, hazard_sign, sitter_strip
from warmside.plugins.labels.paper.stock import Stock, find_stock
from warmside.plugins.labels.paper.stockfile import shipped_stocks
from warmside.testing import Keeper, copy_of, new_keeper

JUNIPER = Occupant(
    "A012",
    "Juniper",
    "moss gecko",
    "Lepidodactylus fictus",
    Sex.FEMALE,
    "2021-05-12",
    genes="het pale",
    origin="own line",
    feeding="every 5 days, 2 crickets",
)
MOSS = Occupant("A013", "Moss", latin="Lepidodactylus fictus", sex=Sex.MALE, hatched="2020")


class Invented(Struct, frozen=True, dict=True):
    """A female, a male of her species, and a label of each kind."""

    juniper: Occupant
    moss: Occupant
    labels: tuple[Label, ...]


@pytest.fixture(scope="session")
def invented() -> Invented:
    """Two animals in one enclosure and every kind of label about them."""
    labels = (
        enclosure_label("RACK-03", [JUNIPER, MOSS], room="back room"),
        animal_card(JUNIPER, contact="555 0100"),
        door_sign("Q1", since="2026-01-05", earliest_end="2026-04-05", tools="blue set"),
        hazard_sign("V-9", find_hazard("venomous"), occupants=[MOSS]),
        sitter_strip("E07", [JUNIPER], meal="Thu 8 Jan", do_nots=["open the lid at night"]),
    )
    return Invented(JUNIPER, MOSS, labels)


@pytest.fixture(scope="session")
def default_stock() -> Stock:
    """The stock that is used when none is named."""
    return find_stock("a4-3x8", shipped_stocks())


@pytest.fixture(scope="session")
def labelled_once(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """What `labelled` copies, made once."""
    keeper = new_keeper(tmp_path_factory.mktemp("labelled"))
    keeper.run("plugin", "enable", "labels")
    for code, name, room in (
        ("V-01", "Window vivarium", "living room"),
        ("V-02", "Tall glass", "attic"),
        ("V-03", "Spare tub", "attic"),
    ):
        keeper.run("enclosure", "add", name, "--code", code, "--room", room)
    for name, species, sex, hatched, place in (
        ("Ember", "African house snake", "female", "2022-06-11", "V-01"),
        ("Tamsin", "crested gecko", "male", "2023", "V-02"),
        ("Moss", "crested gecko", "female", "2023-05", "V-02"),
    ):
        keeper.run(
            *("animal", "add", name, "--species", species, "--sex", sex),
            *("--hatched", hatched, "--enclosure", place),
        )
    return keeper


@pytest.fixture
def labelled(labelled_once: Keeper, tmp_path: Path) -> Keeper:
    """A keeper with labels enabled, three animals in two enclosures, and an empty enclosure."""
    return copy_of(labelled_once, tmp_path)
