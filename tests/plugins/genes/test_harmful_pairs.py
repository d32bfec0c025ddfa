"""Pairs that can give their young a trait known to harm."""

from __future__ import annotations

from pathlib import Path

import pytest

from warmside.api import About, Level
from warmside.testing import Keeper, copy_of, new_keeper


@pytest.fixture(scope="session")
def pythons(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """Fern and Rust, ball pythons that are not related."""
    keeper = new_keeper(tmp_path_factory.mktemp("pythons"), plugins=["genes"])
    for name, sex in (("Fern", "female"), ("Rust", "male")):
        keeper.run("animal", "add", name, "--species", "ball python", "--sex", sex)
    keeper.run("record", "mated", "Fern", "--partner", "Rust")
    return keeper


@pytest.fixture
def mine(pythons: Keeper, tmp_path: Path) -> Keeper:
    return copy_of(pythons, tmp_path)


def harmful(keeper: Keeper) -> list[str]:
    with keeper.ask() as ask:
        found = [f for f in ask.findings(ask.book.today) if f.code == "genes.harmful"]
    assert all(f.level is Level.LOOK_SOON and f.about == About(1) for f in found)
    return [f.words for f in found]


def test_a_trait_that_one_copy_harms_by(mine: Keeper) -> None:
    assert harmful(mine) == []
    mine.run("genes", "known", "Rust", "visual spider")
    mine.run("genes", "known", "Fern", "no spider")
    (words,) = harmful(mine)
    assert words.startswith("50 % of young with Rust would show spider: head twisting")
    assert "vet" in words and "would have two copies" not in words


def test_two_copies_that_do_not_live_are_said_in_the_same_finding(mine: Keeper) -> None:
    for name in ("Fern", "Rust"):
        mine.run("genes", "known", name, "visual spider")
    (words,) = harmful(mine)
    assert "25 % would have two copies, which are said not to live" in words


def test_a_recessive_that_no_young_can_show_is_not_told_of(mine: Keeper) -> None:
    mine.run("genes", "known", "Rust", "het caramel albino")
    assert harmful(mine) == []
    mine.run("genes", "known", "Fern", "het caramel albino")
    (words,) = harmful(mine)
    assert words.startswith("25 % of young with Rust would show caramel albino")


def test_what_two_copies_alone_harm_by_needs_both_parents(mine: Keeper) -> None:
    mine.run("genes", "known", "Rust", "visual cinnamon")
    assert harmful(mine) == []
    mine.run("genes", "known", "Fern", "visual cinnamon")
    (words,) = harmful(mine)
    assert words.startswith("25 % of young with Rust would have two copies of cinnamon")


def test_harmless_traits_are_not_told_of(mine: Keeper) -> None:
    mine.run("genes", "known", "Rust", "visual piebald, visual mojave, normal spider")
    mine.run("genes", "known", "Fern", "het clown, visual pastel")
    assert harmful(mine) == []


def test_without_a_pairing_nothing_is_said(mine: Keeper) -> None:
    mine.run("genes", "known", "Rust", "visual spider")
    mine.pass_days(61)
    assert harmful(mine) == []
