"""A setting may be set for one animal, enclosure or species: the narrowest wins, and says why."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from warmside.core.plugins.hook_values import ShippedValue
from warmside.core.plugins.manifest import Setting
from warmside.core.values.about import NOBODY, About
from warmside.core.values.basis import Mark, Source
from warmside.core.values.units import Unit
from warmside.testing import Keeper, throw_away_plugin

BASKING = Setting(
    "basking",
    "warmest place",
    30.0,
    "a custom (common practice, no source)",
    Unit.TEMPERATURE,
    10,
    60,
    per=("species", "enclosure", "animal"),
)
PLAIN = Setting("word", "a word", "one", "own [keeper's own]")
TABLE = Source("Table 3 of an invented handbook", Mark.INVENTED)


def shipped() -> list[ShippedValue]:
    return [ShippedValue("Python regius", "basking", 32.0, TABLE)]


@pytest.fixture
def kept(keeper: Keeper, monkeypatch: pytest.MonkeyPatch) -> Iterator[Keeper]:
    """A python in an enclosure, a gecko in another, and a plugin with two settings."""
    for name, species in (("Ember", "ball python"), ("Moss", "leopard gecko")):
        keeper.run("enclosure", "add", f"Home of {name}", "--code", f"H{name[0]}")
        keeper.run("animal", "add", name, "--species", species, "--enclosure", f"H{name[0]}")
    parts: dict[str, Any] = {"settings": (BASKING, PLAIN), "values": f"{__name__}:shipped"}
    monkeypatch.setitem(__import__("sys").modules, __name__, __import__("sys").modules[__name__])
    with throw_away_plugin("alder", manifest=parts):
        keeper.run("plugin", "enable", "alder")
        yield keeper


def value(keeper: Keeper, about: About) -> tuple[Any, str, str]:
    with keeper.ask() as ask:
        found = ask.value("alder", "basking", about)
    return found.value, found.scope, found.basis.source.text


EMBER, MOSS = About(1), About(2)


def test_the_narrowest_wins_step_by_step(kept: Keeper) -> None:
    assert value(kept, MOSS) == (30.0, "default", "a custom")
    assert value(kept, EMBER) == (32.0, "species", TABLE.text)
    kept.run("plugin", "set", "alder", "basking", "29C")
    assert value(kept, MOSS)[:2] == (29.0, "collection")
    assert value(kept, EMBER)[:2] == (32.0, "species"), "a row for the species is narrower"
    kept.run("plugin", "set", "alder", "basking", "33C", "--species", "ball python")
    assert value(kept, EMBER) == (33.0, "species", "set by the keeper")
    kept.run("plugin", "set", "alder", "basking", "34C", "--enclosure", "HE")
    assert value(kept, EMBER)[:2] == (34.0, "enclosure")
    assert value(kept, About(enclosure_id=1))[:2] == (34.0, "enclosure")
    kept.run("plugin", "set", "alder", "basking", "35C", "--animal", "EMB", "--note", "by a vet")
    assert value(kept, EMBER) == (35.0, "animal", "set by the keeper: by a vet")
    assert value(kept, MOSS)[:2] == (29.0, "collection"), "nobody else is meant"
    assert value(kept, NOBODY)[:2] == (29.0, "collection")


def test_each_is_taken_back_and_undone_like_everything(kept: Keeper) -> None:
    kept.run("plugin", "set", "alder", "basking", "35C", "--animal", "EMB")
    kept.run("plugin", "set", "alder", "basking", "36C", "--animal", "EMB")
    kept.run("undo")
    assert value(kept, EMBER)[0] == 35.0
    kept.run("plugin", "set", "alder", "basking", "default", "--animal", "EMB")
    assert value(kept, EMBER)[:2] == (32.0, "species")
    kept.run("undo")
    assert value(kept, EMBER)[0] == 35.0


@pytest.mark.parametrize(
    ("typed", "code", "told"),
    [
        (("word", "two", "--animal", "EMB"), 2, "it can be for: the whole collection only"),
        (("basking", "70C", "--animal", "EMB"), 2, "is between 10 °C and 60 °C"),
        (("basking", "30C", "--animal", "NOB"), 3, "there is no animal 'NOB'"),
        (("basking", "30C", "--animal", "EMB", "--species", "boa"), 2, "for one of them"),
        (("basking", "default", "--animal", "EMB"), 3, "not set for EMB"),
    ],
)
def test_what_cannot_be_set_is_said(
    kept: Keeper, typed: tuple[str, ...], code: int, told: str
) -> None:
    assert told in kept.run("plugin", "set", "alder", *typed, ok=False).complaint(code)
    assert value(kept, EMBER)[:2] == (32.0, "species")


def test_plugin_show_lists_what_is_set_more_narrowly_and_why(kept: Keeper) -> None:
    kept.run("plugin", "set", "alder", "basking", "35C", "--animal", "EMB", "--note", "by a vet")
    rows = kept.json("plugin", "show", "alder")["narrower"]
    assert [(r["whom"], r["value"], r["scope"], r["source"]) for r in rows] == [
        ("Ember (EMB)", "35 °C", "animal", "set by the keeper: by a vet [keeper's own]"),
        ("Python regius", "32 °C", "species", f"{TABLE.text} [invented example]"),
    ]
    kept.run("plugin", "set", "alder", "basking", "33C", "--species", "ball python")
    species = [
        r for r in kept.json("plugin", "show", "alder")["narrower"] if r["scope"] != "animal"
    ]
    assert [(r["whom"], r["value"]) for r in species] == [("Python regius", "33 °C")]
