"""References: imported, built, assigned, dropped; what an animal is held to."""

from __future__ import annotations

import math
import random
from importlib.resources import files
from pathlib import Path

import pytest

from warmside.api import About, Level
from warmside.testing import Keeper

EXAMPLE = str(files("warmside.plugins.weight") / "data" / "example_reference.csv")
BOA = ("--species", "Kenyan sand boa")


def _import(keeper: Keeper, *more: str, ok: bool = True):  # type: ignore[no-untyped-def]
    return keeper.run("weight", "reference", "import", *more, ok=ok)


def _list(keeper: Keeper) -> list[dict[str, object]]:
    return list(keeper.json("weight", "reference", "list")["references"])


def test_an_imported_reference_keeps_source_and_licence(weigher: Keeper) -> None:
    """Also its mark; animals of the species are held to it at once."""
    _import(weigher, EXAMPLE, *BOA, "--name", "trial")
    (row,) = _list(weigher)
    assert (row["name"], row["species"]) == ("trial", "Eryx colubrinus")
    assert (row["licence"], row["mark"]) == ("CC0", "invented example")
    assert row["animals"] == 2
    shown = weigher.json("weight", "show", "TUP")
    assert shown["z"] < 0 and shown["tail_rule"] in (True, False)
    assert "invented example" in shown["reference"]
    weigher.run("undo", "--yes")
    assert _list(weigher) == []


def test_the_score_is_that_of_the_file(weigher: Keeper) -> None:
    """What is stored and what the file says give the same z (no meal, age in whole days)."""
    _import(weigher, EXAMPLE, *BOA)
    shown = weigher.json("weight", "show", "TUP")
    asked = ("--sex", "female", "--age", f"{shown['age_days']:.0f}d", "--mass",
             f"{shown['mass_g']}g")  # fmt: skip
    assert shown["z"] == pytest.approx(
        weigher.json("weight", "score", "--reference", EXAMPLE, *asked)["z"], abs=1e-9
    )


@pytest.mark.parametrize(
    ("more", "code", "said"),
    [
        ((EXAMPLE,), 2, "names no species"),
        ((EXAMPLE, "--species", "wyvern"), 3, "there is no species"),
        ((EXAMPLE, *BOA, "--name", "a/b"), 2, "cannot be named"),
        (("nowhere.csv", *BOA), 2, "cannot read"),
    ],
)
def test_a_reference_that_cannot_be_kept(
    weigher: Keeper, more: tuple[str, ...], code: int, said: str
) -> None:
    """One line, nothing written."""
    assert said in _import(weigher, *more, ok=False).complaint(code)
    assert _list(weigher) == []


def test_source_and_licence_are_needed(weigher: Keeper, tmp_path: Path) -> None:
    """In the file or given."""
    path = tmp_path / "bare.csv"
    path.write_text("sex,age_days,p3,p50,p97\nany,0,20,30,44\nany,900,300,420,600\n")
    assert "names no source" in _import(weigher, str(path), *BOA, ok=False).complaint(2)
    told = ("--source", "Example club 2025", "--licence", "CC BY 4.0")
    _import(weigher, str(path), *BOA, *told)
    (row,) = _list(weigher)
    assert (row["source"], row["licence"], row["curves"]) == (*told[1::2], ["any"])


def test_a_name_is_taken_once(weigher: Keeper) -> None:
    """In whatever case."""
    _import(weigher, EXAMPLE, *BOA, "--name", "Trial")
    line = _import(weigher, EXAMPLE, *BOA, "--name", "trial", ok=False).complaint(4)
    assert "weight reference drop trial" in line


def test_a_reference_for_another_species_is_refused(weigher: Keeper) -> None:
    """At import where file and option differ, and when it is assigned; nothing changes."""
    _import(weigher, EXAMPLE, "--species", "ball python", "--name", "python")
    line = weigher.run("weight", "reference", "assign", "python", "TUP", ok=False).complaint(2)
    assert "is for Python regius, not Eryx colubrinus" in line
    assert "z" not in weigher.json("weight", "show", "TUP")


def test_of_two_references_one_is_assigned(weigher: Keeper) -> None:
    """Until then there is no centile; `none` takes it away; dropping frees the animals."""
    for name in ("one", "two"):
        _import(weigher, EXAMPLE, *BOA, "--name", name)
    assert "z" not in weigher.json("weight", "show", "TUP")
    weigher.run("weight", "reference", "assign", "two", "TUP", "BEX")
    assert weigher.json("weight", "show", "TUP")["reference"].startswith("two,")
    weigher.run("weight", "reference", "assign", "none", "TUP")
    assert "z" not in weigher.json("weight", "show", "TUP")
    assert "1 animals" in weigher.run("weight", "reference", "drop", "two").stdout
    assert weigher.json("weight", "show", "BEX")["reference"].startswith("one,")
    weigher.run("undo", "--yes")
    assert weigher.json("weight", "show", "BEX")["reference"].startswith("two,")
    weigher.run("weight", "reference", "drop", "tow", ok=False).complaint(3)


def test_a_line_has_its_own_curve(weigher: Keeper, tmp_path: Path) -> None:
    """Where it is named; without it the common one."""
    path = tmp_path / "lines.csv"
    rows = [f"any,{line},{age},0.1,{m},0.1" for line, f in (("", 1), ("dwarf", 0.5))
            for age, m in ((0, 30 * f), (900, 500 * f))]  # fmt: skip
    path.write_text(
        "# source: made up\n# licence: CC0\nsex,line,age_days,l,m,s\n" + "\n".join(rows)
    )
    _import(weigher, str(path), *BOA, "--name", "lines")
    common = weigher.json("weight", "show", "TUP")["z"]
    weigher.run("weight", "reference", "assign", "lines", "TUP", "--line", "dwarf")
    assert weigher.json("weight", "show", "TUP")["z"] > common + 2


def test_a_fall_through_the_centiles_is_a_finding(weigher: Keeper, tmp_path: Path) -> None:
    """It names the reference; a single curve along the animal's own growth makes it visible."""
    path = tmp_path / "along.csv"
    rows = [
        f"any,{age},0.1,{20 + 520 * (1 - math.exp(-age / 500)) ** 2:.2f},0.06"
        for age in range(0, 1001, 20)
    ]
    path.write_text("# source: made up\n# licence: CC0\nsex,age_days,l,m,s\n" + "\n".join(rows))
    _import(weigher, str(path), *BOA, "--name", "along")
    weigher.run("record", "weighed", "TUP=268g")
    with weigher.ask() as ask:
        found = ask.findings(ask.book.today, About(1))
        assert [(f.code, f.level) for f in found] == [("weight.centile-lines", Level.LOOK_SOON)]
        assert "along, made up" in found[0].words
        lines = {line.key: line.text for line in ask.label_lines(About(1), ask.book.today)}
    assert lines["weight.centile"].endswith("of along")
    chart = weigher.json("weight", "chart", "TUP")["chart"]
    assert [b["title"] for b in chart["bands"]] == ["5th to 95th centile", "25th to 75th centile"]


def test_a_reference_from_too_few_weighings_says_how_many_are_missing(weigher: Keeper) -> None:
    """Weighings, animals and ages; nothing is stored."""
    build = ("weight", "reference", "build", "own", *BOA)
    line = weigher.run(*build, ok=False).complaint(2)
    assert "2 animals" in line and "18 animals" in line
    assert _list(weigher) == []
    assert "female: " in weigher.run(*build, "--sex", "each", ok=False).complaint(2)
    weigher.run(*build, "--sex", "boys", ok=False).complaint(2)


def test_a_reference_is_built_from_a_pooled_file(weigher: Keeper, tmp_path: Path) -> None:
    """With the uncertainty of its centiles, which is kept; the truth lies near."""
    rng = random.Random(5)
    rows = ["animal,sex,age_days,mass_g"]
    for animal in range(40):
        level = math.exp(rng.gauss(0, 0.12))
        for age in range(10, 900, 90):
            mass = level * (20 + 520 * (1 - math.exp(-age / 500)) ** 2)
            rows.append(f"X{animal},female,{age + rng.randrange(60)},{mass:.1f}")
    path = tmp_path / "pooled.csv"
    path.write_text("\n".join(rows) + "\n", encoding="utf-8")
    build = ("weight", "reference", "build", "club", *BOA, "--from", str(path))
    built = weigher.json(*build, "--sex", "female", "--source", "Invented club")
    assert "400 weighings of 40 animals" in built["made_from"]
    row = min(built["female_centiles"], key=lambda r: abs(r["age_days"] - 500))
    assert row["p50_low_g"] < row["p50_g"] < row["p50_high_g"]
    assert row["p5_g"] < row["p50_g"] < row["p95_g"]
    assert (
        weigher.json("weight", "reference", "show", "club")["female_centiles"][3]
        == (built["female_centiles"][3])
    )
    assert weigher.json("weight", "show", "TUP")["reference"].startswith("club, Invented club")
    assert "z" not in weigher.json("weight", "show", "BEX")  # no curve for a male


def test_a_pooled_file_with_a_bad_line_is_one_line(weigher: Keeper, tmp_path: Path) -> None:
    """With its number; nothing is stored."""
    path = tmp_path / "pooled.csv"
    path.write_text("animal,sex,age_days,mass_g\nA,female,-3,20\n", encoding="utf-8")
    build = ("weight", "reference", "build", "club", *BOA, "--from", str(path))
    line = weigher.run(*build, ok=False).complaint(2)
    assert "line 2: age of -3 days is before hatching" in line
    assert _list(weigher) == []


def test_a_hatching_date_known_to_the_year_gives_no_centile(weigher: Keeper) -> None:
    """And says so."""
    _import(weigher, EXAMPLE, "--species", "leopard gecko")
    weigher.run("record", "weighed", "MOT=45g")
    shown = weigher.run("weight", "show", "MOT").stdout
    assert "must be known to" in " ".join(shown.split())
