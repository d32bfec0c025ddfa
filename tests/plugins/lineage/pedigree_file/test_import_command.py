"""A keeper takes a pedigree in, looks first, and takes it back."""

from __future__ import annotations

from pathlib import Path

import pytest

from warmside.testing import Keeper, new_keeper

FILE = (
    "id,name,dam,sire,sex,date\n"
    "GM,Granny,,,f,2015\nGF,,,,m,2015-06\nMA,,GM,GF,f,2018-07-01\n"
    "a very long old number 7,Kid,MA,Rust,,2021\n"
)


@pytest.fixture
def mine(tmp_path: Path) -> Keeper:
    keeper = new_keeper(tmp_path, plugins=["lineage"])
    keeper.run("animal", "add", "Rust", "--species", "corn snake", "--sex", "male")
    (tmp_path / "p.csv").write_text(FILE, encoding="utf-8")
    return keeper


def counts(answer: dict[str, object]) -> tuple[object, ...]:
    return tuple(answer[key] for key in ("new", "parents", "same", "bad"))


def test_a_dry_run_writes_nothing(mine: Keeper, tmp_path: Path) -> None:
    asked = ("lineage", "import", tmp_path / "p.csv", "--species", "corn snake")
    assert counts(mine.json(*asked, "--dry-run")) == (4, 4, 0, 0)
    assert len(mine.json("animal", "list", "--all")["animals"]) == 1
    assert counts(mine.json(*asked)) == (4, 4, 0, 0)
    assert counts(mine.json(*asked)) == (0, 0, 4, 0)  # a second time nothing is new
    mine.run("undo")
    assert len(mine.json("animal", "list", "--all")["animals"]) == 1


def test_ancestors_are_not_here_and_have_their_family(mine: Keeper, tmp_path: Path) -> None:
    mine.run("lineage", "import", tmp_path / "p.csv", "--species", "corn snake")
    assert [a["name"] for a in mine.json("animal", "list")["animals"]] == ["Rust"]
    kid = mine.json("animal", "show", "Kid")
    assert kid["note"] == "known as a very long old number 7"
    assert {(k["role"], k["animal"]) for k in kid["kin"]} == {
        ("dam", "MA (MA)"),
        ("sire", "Rust (RUS)"),
    }
    assert "Granny (GM) ♀, 2015" in mine.run("lineage", "show", "Kid").stdout


def test_export_and_import_change_nothing(mine: Keeper, tmp_path: Path) -> None:
    mine.run("lineage", "import", tmp_path / "p.csv", "--species", "corn snake")
    mine.run("lineage", "export", tmp_path / "out.csv")
    assert counts(mine.json("lineage", "import", tmp_path / "out.csv")) == (0, 0, 5, 0)
    (tmp_path / "other").mkdir()
    other = new_keeper(tmp_path / "other", plugins=["lineage"])
    other.run("lineage", "import", tmp_path / "out.csv")
    other.run("lineage", "export", tmp_path / "again.csv")
    assert (tmp_path / "again.csv").read_text() == (tmp_path / "out.csv").read_text()


def test_codes_that_are_named_go_before_codes_that_are_suggested(
    mine: Keeper, tmp_path: Path
) -> None:
    text = "id,dam,sire,species\nGranny the elder,,,corn snake\nGRA,Granny the elder,,corn snake\n"
    (tmp_path / "q.csv").write_text(text)
    mine.run("lineage", "import", tmp_path / "q.csv")
    codes = {a["name"]: a["code"] for a in mine.json("animal", "list", "--all")["animals"]}
    assert codes == {"Rust": "RUS", "GRA": "GRA", "Granny the elder": "GRA2"}


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("id,dam,species\nA,,corn snake\n", "sire is missing"),
        ("id,dam,sire\nA,,\nB,,\n", "lines 2, 3: no species"),
        ("id,dam,sire,species\nA,,,dodo\n", "no species 'dodo'"),
        ("id,dam,sire,species\nA,NO,,corn snake\n", "line 2: parent NO has no row"),
        ("id,dam,sire,species\na,b,,corn snake\nB,A,,corn snake\n", "their own ancestor"),
        ("id,dam,sire,species,date\nA,,,corn snake,2031\n", "in the future"),
        ("id,dam,sire,species,sex\nA,,,corn snake,both\n", "sex cannot be 'both'"),
        ("id,dam,sire,species\n,,,corn snake\n", "the id is missing"),
        ("id,dam,sire,species\nA,,corn snake\n", "has 3 cells, not 4"),
        ("id,dam,sire,species\nA,,,corn snake\na,,,corn snake\n", "line 3: A is there in line 2"),
    ],
)
def test_bad_files_are_named_by_line_and_nothing_is_entered(
    mine: Keeper, tmp_path: Path, text: str, told: str
) -> None:
    (tmp_path / "bad.csv").write_text(text, encoding="utf-8")
    result = mine.run("lineage", "import", tmp_path / "bad.csv", ok=False)
    assert told in result.complaint(2)
    assert len(mine.json("animal", "list", "--all")["animals"]) == 1
