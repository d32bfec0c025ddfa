"""`warmside weight`: show, chart, growth, condition, doubts and score."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

import pytest

from warmside.testing import Keeper

EXAMPLE = str(files("warmside.plugins.weight") / "data" / "example_reference.csv")


def _file(folder: Path, *rows: str, header: str = "sex,age_days,l,m,s") -> str:
    path = folder / "reference.csv"
    path.write_text("\n".join([header, *rows]) + "\n", encoding="utf-8")
    return str(path)


def _score(keeper: Keeper, file: str, *more: str, ok: bool = True):  # type: ignore[no-untyped-def]
    asked = ("--sex", "male", "--age", "269d", "--mass", "6.3kg", *more)
    return keeper.run("weight", "score", "--reference", file, *asked, "--json", ok=ok)


def test_a_score_needs_no_collection(tmp_path: Path) -> None:
    """The row of 9-month-old boys of the CDC 2000 growth charts (worked example of its data-file
    notes: L, M, S as there, 9.7 kg gives z 0.207 and centile 58.2)."""
    keeper = Keeper(tmp_path / "none.warmside")
    file = _file(tmp_path, "male,260,-0.1600954,9476.500305,0.11218624",
                 "male,280,-0.1600954,9476.500305,0.11218624")  # fmt: skip
    asked = ("--reference", file, "--sex", "male", "--age", "269d", "--mass", "9.7kg")
    found = keeper.json("weight", "score", *asked)
    assert found["z"] == pytest.approx(0.207399, abs=5e-6)
    assert found["centile"] == pytest.approx(58.2, abs=0.05)
    assert found["tail_rule"] is False


def test_the_tail_rule_is_told(tmp_path: Path) -> None:
    """The same row, 6 kg: the adjusted value of -4.07 (a public test suite of the WHO rule)."""
    keeper = Keeper(tmp_path / "none.warmside")
    file = _file(tmp_path, "male,269,-0.1600954,9476.500305,0.11218624")
    asked = ("--reference", file, "--sex", "male", "--age", "269d", "--mass", "6kg")
    found = keeper.json("weight", "score", *asked)
    assert found["z"] == pytest.approx(-4.0697, abs=5e-4)
    assert found["tail_rule"] is True


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        (["male,0,1,30,0"], "line 2: s of 0"),
        (["male,300,1,30,0.1", "male,200,1,30,0.1"], "line 3: age 200 days comes after 300"),
        (["male,200,1,30,0.1", "male,200,1,31,0.1"], "line 3: age 200 days stands there twice"),
        (["female,0,1,30,0.1", "female,400,1,30,0.1"], "no curve for sex 'male'"),
        (["male,0,1,30,0.1", "male,100,1,30,0.1"], "outside the reference's 0 to 100 days"),
        (["male,zero,1,30,0.1"], "age_days 'zero' is not a number"),
        ([], "no rows"),
    ],
)
def test_a_bad_reference_file_is_one_line(tmp_path: Path, rows: list[str], said: str) -> None:
    """S of zero, unsorted and overlapping ages, no curve for the sex, an age outside."""
    keeper = Keeper(tmp_path / "none.warmside")
    assert said in _score(keeper, _file(tmp_path, *rows), ok=False).complaint(2)


def test_a_file_that_cannot_be_read(tmp_path: Path) -> None:
    """Not there, a folder, or no text."""
    keeper = Keeper(tmp_path / "none.warmside")
    assert "cannot read" in _score(keeper, str(tmp_path / "no.csv"), ok=False).complaint(2)
    assert "cannot read" in _score(keeper, str(tmp_path), ok=False).complaint(2)
    path = tmp_path / "odd.csv"
    path.write_bytes(b"sex,age_days\xff\n")
    assert "not utf-8" in _score(keeper, str(path), ok=False).complaint(2)


@pytest.mark.parametrize(
    ("option", "value", "said"),
    [
        ("--mass", "0g", "mass"),
        ("--mass", "6.3", "6.3"),
        ("--age", "soon", "soon"),
        ("--sex", "boy", "sex 'boy' is not known"),
    ],
)
def test_odd_values_are_one_line(tmp_path: Path, option: str, value: str, said: str) -> None:
    """The value is named."""
    keeper = Keeper(tmp_path / "none.warmside")
    assert said in _score(keeper, EXAMPLE, option, value, ok=False).complaint(2)


def test_show_lists_the_animals_that_were_weighed(weigher: Keeper) -> None:
    """With what is expected now; an animal never weighed has no line."""
    rows = weigher.json("weight", "show")["animals"]
    assert {r["code"] for r in rows} == {"TUP", "BEX"}
    assert all(r["centile"] is None and r["expected_low_g"] < r["mass_g"] for r in rows)


def test_show_says_why_there_is_no_centile(weigher: Keeper) -> None:
    """No reference, and that no open one was found."""
    shown = weigher.run("weight", "show", "TUP").stdout
    assert "no open age-mass centile curve" in " ".join(shown.split())
    assert "no weight on record" in weigher.run("weight", "show", "MOT").stdout


def test_what_others_of_its_kind_weigh_is_for_orientation(weigher: Keeper) -> None:
    """Adults by their span, hatchlings by their mean; never called a percentile, with sources."""
    weigher.run("record", "weighed", "MOT=45g")
    shown = weigher.json("weight", "show", "MOT")
    assert (shown["species_adult_low_g"], shown["species_adult_high_g"]) == (50, 90)
    assert shown["species_adult_basis"]["mark"] == "from memory"
    assert shown["species_hatchling_g"] == 1.87
    assert "Myhrvold" in shown["species_hatchling_basis"]["source"]
    assert "centile" not in shown


def test_an_unknown_animal_is_not_found(weigher: Keeper) -> None:
    """For each command that names one."""
    for command in ("show", "chart", "growth", "condition", "doubts"):
        weigher.run("weight", command, "TUB", ok=False).complaint(3)


def test_the_chart_has_points_a_band_and_marks(weigher: Keeper) -> None:
    """Meals and sheds below; without a reference the own curve's prediction range."""
    weigher.run("record", "fed", "TUP", "--item", "mouse", "--mass", "15g", "--at", "2025-05-01")
    weigher.run("record", "shed", "TUP", "--at", "2025-06-01")
    chart = weigher.json("weight", "chart", "TUP")["chart"]
    assert [b["title"] for b in chart["bands"]] == ["95 % prediction range"]
    assert [m["title"] for m in chart["marks"]] == ["meals", "sheds"]
    assert chart["lines"][0]["title"] == "weighed"


@pytest.mark.parametrize("ending", ["svg", "pdf"])
def test_the_chart_is_saved(weigher: Keeper, tmp_path: Path, ending: str) -> None:
    """As a file that its reader opens."""
    path = tmp_path / f"chart.{ending}"
    weigher.run("weight", "chart", "TUP", "--save", str(path))
    assert path.read_bytes()[:5] in (b"<?xml", b"<svg ", b"%PDF-")


def test_a_chart_of_few_weighings_is_drawn_too(weigher: Keeper) -> None:
    """With the range that the last weighings lead to expect, widening with time."""
    weigher.run("record", "weighed", "MOT=45g")
    (band,) = weigher.json("weight", "chart", "MOT")["chart"]["bands"]
    widths = [high - low for low, high in zip(band["low_g"], band["high_g"], strict=True)]
    assert widths == sorted(widths) and widths[0] > 0


def test_a_chart_since_a_day(weigher: Keeper) -> None:
    """Only what came after; a day to come is refused."""
    all_of, some = (
        weigher.json("weight", "chart", "TUP", *since)["chart"]["lines"][0]["x"]
        for since in ((), ("--since", "2026-01-01"))
    )
    assert 0 < len(some) < len(all_of)
    weigher.run("weight", "chart", "TUP", "--since", "2027-01-01", ok=False).complaint(2)


def test_a_weight_in_doubt_is_named_where_the_chart_leaves_it_off(weigher: Keeper) -> None:
    """Never silently dropped."""
    weigher.run("plugin", "disable", "weight")
    weigher.run("record", "weighed", "TUP=2850g", "--confirm", "--at", "2026-02-20")
    weigher.run("plugin", "enable", "weight")
    answer = weigher.json("weight", "chart", "TUP")
    assert 2850 not in answer["chart"]["lines"][0]["y_g"]
    assert any("2850 g on 2026-02-20" in note["text"] for note in answer["notes"])


def test_growth_tells_the_curve_and_what_to_expect(weigher: Keeper) -> None:
    """With ranges that widen."""
    found = weigher.json("weight", "growth", "TUP")
    rows = found["expected"]
    assert found["weighings"] > 40
    assert rows[0]["day"] == "2026-03-05"
    assert rows[0]["mass_low_g"] < 292 < rows[0]["mass_high_g"]


def test_growth_says_that_there_is_not_enough_of_the_curve(weigher: Keeper, tmp_path: Path) -> None:
    """A hatchling's first weeks do not show its adult mass."""
    rows = [f"2025-{m:02}-{d:02},weighed,MOT,{g}" for m, d, g in (
        (1, 3, 3.0), (1, 10, 3.2), (1, 17, 3.45), (1, 24, 3.7), (1, 31, 4.0), (2, 7, 4.3),
        (2, 14, 4.6), (2, 21, 4.95), (2, 28, 5.3), (3, 7, 5.7),
    )]  # fmt: skip
    path = tmp_path / "more.csv"
    path.write_text("date,kind,animal,mass_g\n" + "\n".join(rows) + "\n", encoding="utf-8")
    weigher.run("import", str(path))
    found = weigher.json("weight", "growth", "MOT")
    assert found["adult_mass_g"] is None
    assert any("not enough of the curve yet" in note["text"] for note in found["notes"])


def test_growth_says_how_many_weighings_are_missing(weigher: Keeper) -> None:
    """Fewer than needed: how many more."""
    weigher.run("record", "weighed", "MOT=45g")
    line = weigher.run("weight", "growth", "MOT", ok=False).complaint(2)
    assert "weigh on 7 more" in line


def test_condition_needs_lengths_and_says_how_many(weigher: Keeper) -> None:
    """The index of a species' own pairs, the family curve only with its warning."""
    text = weigher.run("weight", "condition", "TUP").stdout
    assert "the index needs 6" in " ".join(text.split())
    for day, mm in (("2025-06-01", 340), ("2025-10-05", 420), ("2026-03-01", 500)):
        weigher.run("record", "measured", "TUP", "--snout-vent", f"{mm}mm", "--at", day)
        weigher.run("record", "measured", "BEX", "--snout-vent", f"{mm * 0.8:.0f}mm", "--at", day)
    found = weigher.json("weight", "condition", "TUP")
    assert found["pairs"] == 6
    assert len(found["measured"]) == 3
    assert found["lowest_index_g"] <= found["measured"][0]["index_g"] <= found["highest_index_g"]
    assert any("1.6 to 2 times" in note["text"] for note in found["notes"])
    bad = weigher.run("weight", "condition", "TUP", "--family", "Dragonidae", ok=False)
    assert "no length-mass curve for 'Dragonidae'" in bad.complaint(2)


def test_only_a_weighing_can_be_called_right(weigher: Keeper) -> None:
    """Another event or none is refused, and nothing is written."""
    with weigher.book() as book:
        other = next(e.id for e in book.events() if e.kind == "kept")
    weigher.run("weight", "doubts", "--right", str(other), ok=False).complaint(2)
    weigher.run("weight", "doubts", "--right", "99999", ok=False).complaint(3)
    with weigher.book() as book:
        assert book.events("weight.checked") == []


def test_every_screen_fits_eighty_columns(weigher: Keeper) -> None:
    """Each command, as text."""
    weigher.run("weight", "reference", "import", EXAMPLE, "--species", "Kenyan sand boa")
    for command in (
        ("show",), ("show", "TUP"), ("chart", "TUP"), ("growth", "TUP"), ("condition", "TUP"),
        ("doubts",), ("reference", "list"), ("reference", "show", "example_reference"),
    ):  # fmt: skip
        text = weigher.run("weight", *command).stdout
        assert max(map(len, text.splitlines())) <= 80, command


def test_a_meal_of_unknown_mass_before_the_last_weighing_is_told(weigher: Keeper) -> None:
    """It cannot be taken off, so it is said; with its mass it is taken off instead."""
    weigher.run("record", "fed", "TUP", "--item", "mouse", "--at", "2026-02-27")
    said = "may still hold the meal of 2026-02-27, whose mass is not on record"
    assert said in " ".join(weigher.run("weight", "show", "TUP").stdout.split())
    with weigher.book() as book:
        meal = book.events("fed")[0].id
    weigher.run("correct", meal, "mass=18g")
    told = weigher.json("weight", "show", "TUP")
    assert told["mass_without_meal_g"] < told["mass_g"]
    assert not any("not on record" in note["text"] for note in told["notes"])
