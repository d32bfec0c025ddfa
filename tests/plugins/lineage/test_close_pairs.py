"""Pairs that are closer kin than is set."""

from __future__ import annotations

from warmside.api import About, Level, Pair
from warmside.testing import Keeper


def close(keeper: Keeper) -> list[tuple[Level, About, str]]:
    with keeper.ask() as ask:
        found = ask.findings(ask.book.today)
    return [(f.level, f.about, f.words) for f in found if f.code == "lineage.close_pair"]


def mate(keeper: Keeper, dam: str, sire: str) -> None:
    keeper.run("record", "mated", dam, "--partner", sire)


def test_full_sibs_that_mated_are_told_of_once(mine: Keeper) -> None:
    assert close(mine) == []
    mate(mine, "Fleck", "Moss")
    mate(mine, "Moss", "Fleck")
    ((level, about, words),) = close(mine)
    assert level is Level.NOTE and about == About(4)
    assert words.startswith("kin of Moss: their young would have an inbreeding of 0.25, more than")


def test_full_sibs_are_told_of_before_they_meet_once_a_pairing_is_planned(mine: Keeper) -> None:
    mine.run("record", "pairing", "Fleck", "--partner", "Moss", "--state", "planned")
    ((_, about, _),) = close(mine)
    assert about == About(4)
    mine.run("record", "pairing", "Fleck", "--partner", "Moss", "--state", "given up")
    assert close(mine) == []


def test_a_pair_that_is_not_related_is_not_told_of(mine: Keeper) -> None:
    mate(mine, "Fern", "Rust")
    assert close(mine) == []


def test_the_keeper_says_how_close_is_too_close(mine: Keeper) -> None:
    mate(mine, "Fleck", "Moss")
    mine.run("plugin", "set", "lineage", "kinship_limit", "0.25")
    assert close(mine) == []  # as much as is set is not more
    mine.run("plugin", "set", "lineage", "kinship_limit", "0.2")
    assert len(close(mine)) == 1


def test_a_family_that_changes_is_reckoned_anew(mine: Keeper) -> None:
    mate(mine, "Fleck", "Moss")
    assert len(close(mine)) == 1
    mine.run("animal", "add", "Slate", "--species", "corn snake", "--sex", "male")
    mine.run("animal", "parents", "Moss", "--sire", "Rust=0.5", "--sire", "Slate=0.5")
    ((_, _, words),) = close(mine)
    assert "0.188 (0.125 to 0.25 by who the parents are)" in words


def test_other_plugins_are_answered_the_kinship_of_a_pair(mine: Keeper) -> None:
    with mine.ask() as ask:
        today = ask.book.today
        pair = Pair(About(4), About(3))
        (answer,) = ask.answers("kinship", pair, today)
        assert (answer.plugin, answer.estimate.value) == ("lineage", 0.25)
        assert ask.answers("kinship", About(4), today) == []


def test_a_plan_of_the_genes_says_the_inbreeding_beside_each_pair(mine: Keeper) -> None:
    mine.run("plugin", "enable", "genes")
    mine.run("genes", "known", "Moss", "visual amelanistic")
    assert mine.json("genes", "plan", "Fleck", "Moss")["inbreeding"] == 0.25
    several = mine.json("genes", "plan", "Fleck", "Moss", "Rust")
    assert (several["inbreeding_1"], several["inbreeding_2"]) == (0.25, 0.25)
    mine.run("plugin", "disable", "lineage")
    assert "inbreeding" not in mine.json("genes", "plan", "Fleck", "Moss")
