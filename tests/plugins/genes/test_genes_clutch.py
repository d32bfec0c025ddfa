"""A clutch on record against what its parents should give, and counts without a record."""

from __future__ import annotations

from pathlib import Path

import pytest

from warmside.testing import Keeper, copy_of

RATIO = ("genes", "ratio", "--seen")


@pytest.fixture(scope="session")
def bred(family: Keeper, tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """Fern, visual amelanistic, and Rust, stated het of it, with six young that look normal."""
    keeper = copy_of(family, tmp_path_factory.mktemp("bred"))
    keeper.run("genes", "known", "Fern", "visual amelanistic")
    keeper.run("genes", "known", "Rust", "het amelanistic")
    keeper.run("clutch", "add", "--code", "C1", "--dam", "Fern", "--sire", "Rust")
    for n in range(6):
        keeper.run("animal", "add", f"Young{n}", "--clutch", "C1", "--code", f"Y{n}")
        keeper.run("genes", "known", f"Y{n}", "normal amelanistic")
    return keeper


@pytest.fixture
def mine(bred: Keeper, tmp_path: Path) -> Keeper:
    return copy_of(bred, tmp_path)


def test_six_normal_young_of_a_stated_het_and_a_visual_are_odd(mine: Keeper) -> None:
    """1 : 1 expected: six alike 2/64 by counts; even before, 1/65 is left of the statement."""
    answer = mine.json("genes", "clutch", "C1")
    (row,) = answer["loci"]
    assert (row["dam"], row["sire"]) == ("amelanistic/amelanistic", "+/amelanistic")
    assert (row["seen"], row["p"]) == ("6 normal, 0 amelanistic", 2 / 64)
    told = " ".join(n["text"] for n in answer["notes"])
    assert "rare if the parents are" in told
    assert "Rust (RUS), het amelanistic (stated) is doubtful by now: 1.5 %" in told


def test_a_clutch_that_fits_is_not_talked_about(mine: Keeper) -> None:
    for n in range(3):
        mine.run("animal", "add", f"More{n}", "--clutch", "C1", "--code", f"M{n}")
        mine.run("genes", "known", f"M{n}", "visual amelanistic")
    answer = mine.json("genes", "clutch", "C1")
    assert answer["loci"][0]["p"] == pytest.approx(0.5078125)  # 6 : 3 or odder on 1 : 1
    assert not any("rare" in n["text"] or "doubtful" in n["text"] for n in answer["notes"])


def test_young_without_looks_are_told_of(mine: Keeper) -> None:
    mine.run("animal", "add", "Blank", "--clutch", "C1", "--code", "BL")
    assert "1 of 7 young has no look on record" in " ".join(
        n["text"] for n in mine.json("genes", "clutch", "C1")["notes"]
    )


def test_young_that_cannot_be_name_the_parents(mine: Keeper) -> None:
    mine.run("genes", "known", "Fern", "no lavender", "--evidence", "tested")
    mine.run("genes", "known", "Y0", "visual lavender")
    rows = {r["locus"]: r for r in mine.json("genes", "clutch", "C1")["loci"]}
    assert rows["lavender"]["p"] == 0
    told = " ".join(n["text"] for n in mine.json("genes", "clutch", "C1")["notes"])
    assert "cannot have young that look lavender" in told


def test_an_unsure_sire_has_no_one_ratio(mine: Keeper) -> None:
    mine.run("animal", "add", "Slate", "--species", "corn snake", "--sex", "male")
    mine.run("clutch", "change", "C1", "--sire", "Rust=0.5", "--sire", "Slate=0.5")
    result = mine.run("genes", "clutch", "C1", ok=False)
    assert result.code == 2 and "not certain" in result.stderr


def test_the_only_sire_on_record_is_taken_and_it_is_said(mine: Keeper) -> None:
    """Six normal young of a visual and a het: 1/64 + 1/64 of such clutches are as odd."""
    mine.run("clutch", "change", "C1", "--sire", "Rust", "--certainty", "probable")
    answer = mine.json("genes", "clutch", "C1")
    (row,) = answer["loci"]
    assert row["p"] == 2 / 64
    assert any("taken as the sire, as the only one" in n["text"] for n in answer["notes"])


def test_young_of_which_another_trait_was_described_count_as_normal(mine: Keeper) -> None:
    """A keeper writes `visual motley` of one that is not lavender: else visuals alone count."""
    for parent in ("Fern", "Rust"):
        mine.run("genes", "known", parent, "het lavender, het motley", "--evidence", "tested")
    mine.run("genes", "known", "Y0", "visual lavender")
    mine.run("genes", "known", "Y1", "visual motley")
    answer = mine.json("genes", "clutch", "C1")
    seen = {row["locus"]: row["seen"] for row in answer["loci"]}
    assert seen["lavender"] == "5 normal, 1 lavender"
    told = " ".join(n["text"] for n in answer["notes"])
    assert "lavender: 5 young of which only other traits were described" in told


def test_the_next_owner_is_told_how_each_trait_is_known(mine: Keeper) -> None:
    sections = {s["title"]: s for s in mine.json("sheet", "owner", "Rust")["sections"]}
    (row,) = sections["Genes"]["traits"]
    assert row["said"] == "het amelanistic (stated)"
    assert "no promise" in mine.run("sheet", "owner", "Rust").stdout


def test_a_clutch_without_young_says_how_to_enter_them(mine: Keeper) -> None:
    mine.run("clutch", "add", "--code", "C2", "--dam", "Fern", "--sire", "Rust")
    result = mine.run("genes", "clutch", "C2", ok=False)
    assert result.code == 2 and "--clutch C2" in result.stderr


def test_counts_without_a_record(keeper: Keeper) -> None:
    answer = keeper.json("genes", "ratio", "--seen", "6,6", "--expected", "3:1")
    assert answer["p_exact"] == "1444159/16777216"
    assert [row["expected"] for row in answer["classes"]] == [9, 3]
    never = keeper.run("genes", "ratio", "--seen", "3,1", "--expected", "1,0").stdout
    assert "Class 2 should have no young at all" in never


def test_a_chance_too_small_to_be_read_is_said_by_what_it_is_less_than(keeper: Keeper) -> None:
    shares = ("--expected", "0.123456,0.876543")
    assert "less than one in a billion" in keeper.run(*RATIO, "900,100", *shares).stdout
    answer = keeper.json(*RATIO, "900,100", *shares)
    assert answer["p"] is None and answer["p_exact"] is None


def test_what_was_drawn_at_random_says_between_what_the_chance_lies(keeper: Keeper) -> None:
    shares = ("--expected", ",".join(["1"] * 10))
    seen = "50,10,15,21,2,60,17,13,4,40"
    answer = keeper.json(*RATIO, seen, *shares)
    assert (
        answer["p"] is answer["p_exact"] is None and "drawn at random" in answer["p_basis"]["rule"]
    )
    assert answer["p_low"] == 0 < answer["p_high"] < 1e-4


@pytest.mark.parametrize(
    ("seen", "expected", "told"),
    [
        ("6,x", "3,1", "'x' is no number"),
        ("6,6", "3", "one for each class"),
        ("6", "1", "at least two"),
        ("0,0", "3,1", "no young"),
        ("6,6", "0,0", "0 for every class"),
        ("6,6", "3,1/0", "'1/0' is no number"),
        ("-6,6", "3,1", "is no number"),
        ("9000,4000", "1,1", "at most 10,000 young"),
        (",".join(["1"] * 101), ",".join(["1"] * 101), "in 101 classes are too many"),
    ],
)
def test_bad_counts_are_one_line(keeper: Keeper, seen: str, expected: str, told: str) -> None:
    asked = ("genes", "ratio", f"--seen={seen}", f"--expected={expected}")
    result = keeper.run(*asked, ok=False)
    assert result.code == 2 and told in result.stderr
    assert len(result.stderr.strip().splitlines()) == 1
