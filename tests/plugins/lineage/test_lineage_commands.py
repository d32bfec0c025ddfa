"""Families as a keeper asks for them."""

from __future__ import annotations

from pathlib import Path

import pypdf
import pytest

from warmside.testing import Keeper


def test_a_family_is_a_tree_and_says_how_inbred_it_is(mine: Keeper) -> None:
    answer = mine.json("lineage", "show", "Dot")
    assert answer["inbreeding"] == 0.25
    assert "unrelated" in answer["inbreeding_basis"]["rule"]
    out = mine.run("lineage", "show", "Dot").stdout
    assert "├─ dam Fleck (FLE) ♀" in out and "└─ sire Moss (MOS) ♂" in out
    assert out.count("(as above)") == 0 and "full sibs" in out


def test_young_hang_below_with_their_other_parent(mine: Keeper) -> None:
    out = mine.run("lineage", "show", "Fern").stdout
    assert "├─ with RUS: Moss (MOS) ♂" in out
    assert "└─ with FLE: Dot (DOT) ?" in out


def test_two_that_may_be_paired(mine: Keeper) -> None:
    answer = mine.json("lineage", "pair", "Moss", "Fleck")
    assert answer["kinship"] == 0.25
    paths = {row["path"]: row["adds"] for row in answer["paths"]}
    assert paths == {"MOS - RUS - FLE": 0.125, "MOS - FER - FLE": 0.125}
    assert mine.run("lineage", "pair", "Moss", "Moss", ok=False).code == 2


def test_an_unsure_sire_is_said_as_a_range(mine: Keeper) -> None:
    mine.run("animal", "add", "Slate", "--species", "corn snake", "--sex", "male")
    mine.run("animal", "parents", "Dot", "--sire", "Moss=0.6", "--sire", "Slate=0.4")
    answer = mine.json("lineage", "show", "Dot")
    assert answer["inbreeding"] == pytest.approx(0.15)
    assert "from 0 to 0.25" in answer["inbreeding_basis"]["rule"]


def test_the_collection_has_its_founders(mine: Keeper) -> None:
    answer = mine.json("lineage", "collection", "corn snake")
    assert answer["founder_equivalents"] == pytest.approx(2.0)
    assert {row["founder"]: row["share"] for row in answer["founders"]} == {
        "Fern (FER)": pytest.approx(0.5),
        "Rust (RUS)": pytest.approx(0.5),
    }
    assert mine.run("lineage", "collection", "ball python", ok=False).code == 3


def test_the_report_tells_of_the_family(mine: Keeper) -> None:
    sections = {s["title"]: s for s in mine.json("report", "Dot")["sections"]}
    assert sections["Family"]["inbreeding"] == 0.25


def test_the_drawing_names_all_and_explains_its_symbols(mine: Keeper, tmp_path: Path) -> None:
    mine.run("lineage", "draw", "Dot", "--trait", "amelanistic", "--save", tmp_path / "p.pdf")
    reader = pypdf.PdfReader(tmp_path / "p.pdf")
    assert len(reader.pages) == 1
    text = reader.pages[0].extract_text()
    for words in ("Fern", "Rust", "Moss", "Fleck", "Dot", "sex unknown", "carries it"):
        assert words in text


def test_what_genes_are_recorded_fills_the_symbols(mine: Keeper) -> None:
    mine.run("plugin", "enable", "genes")
    mine.run("genes", "known", "Rust", "visual amelanistic")
    mine.run("genes", "known", "Moss", "het amelanistic")
    plain = mine.json("lineage", "draw", "Dot")["pedigree"]
    filled = mine.json("lineage", "draw", "Dot", "--trait", "amelanistic")["pedigree"]
    assert {a["shows"] for a in plain["animals"]} == {"nothing"}
    shown = {a["words"][0]: a["shows"] for a in filled["animals"] if a["shows"] != "nothing"}
    assert shown == {"Rust": "visual", "Moss": "carries"}
    told = mine.run("lineage", "draw", "Dot", "--trait", "lavender").stdout
    assert "No animal here is known to show or carry lavender." in told


def test_who_must_carry_it_is_half_filled_and_a_possible_het_is_not(mine: Keeper) -> None:
    """Young of a visual that do not show it carry it (Mendel); those of two hets may."""
    mine.run("plugin", "enable", "genes")
    mine.run("genes", "known", "Rust", "visual amelanistic")
    for name in ("Moss", "Fleck"):
        mine.run("genes", "known", name, "normal amelanistic")
    mine.run("genes", "known", "Dot", "66 % het amelanistic")
    filled = mine.json("lineage", "draw", "Dot", "--trait", "Amelanistic")["pedigree"]
    shown = {a["words"][0]: a["shows"] for a in filled["animals"]}
    assert shown["Moss"] == shown["Fleck"] == "carries" and shown["Dot"] == "nothing"


def test_more_than_a_page_is_refused_with_what_to_do(
    mine: Keeper, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("warmside.plugins.lineage.commands.family.MOST_DRAWN", 4)
    result = mine.run("lineage", "draw", "Fern", ok=False)
    assert result.code == 2 and "--down" in result.stderr
    mine.run("lineage", "draw", "Fern", "--down", "1")


def test_the_pedigree_goes_out_as_csv_and_is_reckoned_alike(mine: Keeper, tmp_path: Path) -> None:
    mine.run("lineage", "export", tmp_path / "all.csv")
    answer = mine.json("lineage", "kinship", tmp_path / "all.csv", "--pair", "MOS", "DOT")
    assert answer["inbreeding"]["DOT"] == 0.25
    assert answer["kinship"] == pytest.approx(0.375)
    again = mine.run("lineage", "export", tmp_path / "all.csv", ok=False)
    assert again.code == 2 and "there already" in again.stderr


def test_parents_that_are_not_certain_are_left_out_of_the_file(
    mine: Keeper, tmp_path: Path
) -> None:
    mine.run("animal", "parents", "Dot", "--sire", "Moss=0.6")
    told = mine.run("lineage", "export", tmp_path / "all.csv").stdout
    assert "1 animal has parents that are not certain" in " ".join(told.split())
    row = next(r for r in (tmp_path / "all.csv").read_text().splitlines() if r.startswith("DOT"))
    assert row.split(",")[3:5] == ["FLE", ""]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("id,dam\nA,\n", "sire is missing"),
        ("id,dam,sire\nA,B,\n", "B in line 2"),
        ("id,dam,sire\nA,,\nA,,\n", "line 3: A is there in line 2"),
        ("id,dam,sire\nA,B,\nB,A,\n", "lines 2, 3: a loop in the parents"),
        ("id,dam,sire\n,x,\n", "line 2: the id is missing"),
        ("id,dam,sire\nA,,\nB,,\n", "no animal 'Q'"),
        ("", "is empty"),
    ],
)
def test_bad_pedigree_files_are_named_by_line(
    keeper: Keeper, tmp_path: Path, text: str, told: str
) -> None:
    (tmp_path / "p.csv").write_text(text, encoding="utf-8")
    result = keeper.run("lineage", "kinship", tmp_path / "p.csv", "--pair", "A", "Q", ok=False)
    assert result.code == 2
    assert told in result.stderr and len(result.stderr.strip().splitlines()) == 1
