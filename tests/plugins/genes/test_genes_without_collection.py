"""What-ifs that need neither a collection nor the plugin."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path

import pytest

from warmside.testing import Keeper


def chances(keeper: Keeper, tmp_path: Path, rows: str, frequency: str = "0.1") -> dict:
    file = tmp_path / "pedigree.csv"
    file.write_text("id,dam,sire,looks\n" + rows, encoding="utf-8")
    return keeper.json("genes", "chances", str(file), "--frequency", frequency)["animals"]


def test_hardy_weinberg_for_a_founder(keeper: Keeper, tmp_path: Path) -> None:
    """q 0.05 gives q^2 0.0025 and 2pq 0.095 (textbook)."""
    found = chances(keeper, tmp_path, "A,,,\n", "0.05")
    assert found["A"] == pytest.approx({"normal": 0.9025, "het": 0.095, "visual": 0.0025})


def test_a_loop_pedigree(keeper: Keeper, tmp_path: Path) -> None:
    """Young of full sibs twice over; values by pgmpy 1.1.2 and by hand in fractions.

    A is het for sure, by a visual parent and a young that looks normal; B is a random animal.
    """
    rows = (
        "V,,,visual\nW,,,normal\nA,V,W,normal\nB,,,normal\nC,B,A,normal\nD,B,A,normal\n"
        "E,D,C,normal\nF,D,C,normal\nG,F,E,normal\nH,F,E,\n"
    )
    found = chances(keeper, tmp_path, rows)
    assert found["A"]["het"] == pytest.approx(1.0)
    assert found["B"]["het"] == pytest.approx(1 / 10, abs=1e-9)
    assert found["C"]["het"] == pytest.approx(119 / 270, abs=1e-9)
    assert found["E"]["het"] == pytest.approx(13 / 36, abs=1e-9)
    assert found["G"]["het"] == pytest.approx(41 / 135, abs=1e-9)
    assert found["H"] == pytest.approx(
        {"normal": 491 / 720, "het": 11 / 40, "visual": 31 / 720}, abs=1e-9
    )


@pytest.mark.parametrize(
    ("rows", "told"),
    [
        ("A,,,white\n", "line 2: looks are"),
        ("A,,,\nA,,,\n", "line 3: A is there in line 2"),
        ("A,B,,\n", "line 2: B has no row"),
        ("A,,,\nB,,,\nC,A,B,\nD,B,A,\n", "a dam and a sire"),
        ("A,B,,\nB,A,,\n", "lines 2, 3: a loop"),
        ("A,,,visual\nB,,,visual\nC,A,B,normal\n", "cannot all be true"),
        (",,,\n", "pedigree.csv"),
    ],
)
def test_bad_pedigrees_are_named_by_line(
    keeper: Keeper, tmp_path: Path, rows: str, told: str
) -> None:
    file = tmp_path / "pedigree.csv"
    file.write_text("id,dam,sire,looks\n" + rows, encoding="utf-8")
    result = keeper.run("genes", "chances", str(file), "--frequency", "0.1", ok=False)
    assert result.code == 2 or not rows.strip(",\n")
    assert told in result.stderr + str(file)
    assert "Traceback" not in result.stderr


@pytest.mark.parametrize("frequency", ["0", "1", "-0.5", "nan"])
def test_a_frequency_is_a_share(keeper: Keeper, tmp_path: Path, frequency: str) -> None:
    file = tmp_path / "pedigree.csv"
    file.write_text("id,dam,sire,looks\nA,,,\n", encoding="utf-8")
    result = keeper.run("genes", "chances", str(file), "--frequency", frequency, ok=False)
    assert result.code == 2


def test_a_pairing_in_words(keeper: Keeper) -> None:
    answer = keeper.json(
        *("genes", "pair", "--species", "corn snake", "--young", "12"),
        *("--dam", "het amelanistic, visual motley", "--sire", "66 % het amelanistic, het motley"),
    )
    looks = {row["words"]: row for row in answer["looks"]}
    share = (2 / 3) / 4
    both = looks["amelanistic, motley"]
    assert both["chance"] == pytest.approx(share / 2)
    assert both["expected"] == pytest.approx(12 * share / 2)
    assert both["at_least_one"] == pytest.approx(2 / 3 * (1 - (1 - 1 / 8) ** 12))
    assert json.dumps(answer)


@pytest.mark.parametrize(
    ("said", "per_young", "in_six"),
    [
        ("66 % het", Fraction(1, 9), Fraction(3367, 9216)),
        ("66,7% het", Fraction(1, 9), Fraction(3367, 9216)),
        ("50 % het", Fraction(1, 16), Fraction(3367, 16384)),
        ("33 % het", Fraction(1, 36), None),
        ("30 % het", Fraction(9, 400), None),
    ],
)
def test_possible_hets_of_one_clutch_share_their_unknown_parents(
    keeper: Keeper, said: str, per_young: Fraction, in_six: Fraction | None
) -> None:
    """66 % is two of three in the trade, so that six young show one with 0.365, not 0.507.

    By exact fractions and by pgmpy 1.1.2, as all cases of whole families.
    """
    both = (f"{said} amelanistic", "--sire", f"{said} amelanistic")
    answer = keeper.json("genes", "pair", "--species", "corn snake", "--dam", *both, "--young", "6")
    (row,) = [row for row in answer["looks"] if row["words"] == "amelanistic"]
    assert row["chance"] == pytest.approx(float(per_young))
    if in_six is not None:
        assert row["at_least_one"] == pytest.approx(float(in_six))


def test_harm_is_told_with_its_source(keeper: Keeper) -> None:
    out = keeper.run(
        *("genes", "pair", "--species", "ball python", "--dam", "visual spider", "--sire", "normal")
    ).stdout
    assert "head twisting" in out and "Starck" in out and "law" in out


def test_two_copies_that_do_not_live_are_said(keeper: Keeper) -> None:
    out = keeper.run(
        *("genes", "pair", "--species", "crested gecko"),
        *("--dam", "lilly white", "--sire", "lilly white"),
    ).stdout
    assert "not to live" in " ".join(out.split())
