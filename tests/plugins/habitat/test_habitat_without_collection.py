"""What-ifs that need neither a collection nor the plugin."""

from __future__ import annotations

from pathlib import Path

import pytest

from warmside.testing import Keeper


def test_the_same_air_where_it_is_warmer(keeper: Keeper) -> None:
    answer = keeper.json("habitat", "air", "--at", "24C", "--humidity", "60%", "--to", "31C")
    assert answer["dew_point_c"] == pytest.approx(15.76, abs=0.02)
    assert answer["vapour_g_per_m3"] == pytest.approx(13.06, abs=0.02)
    assert answer["humidity_percent"] == pytest.approx(39.8, abs=0.1)


def test_what_a_bowl_keeps_up_is_told_against_the_air_that_is_changed(keeper: Keeper) -> None:
    box = ("--width", "120cm", "--depth", "60cm", "--height", "60cm", "--bowl", "20cm")
    air = ("--at", "27C", "--humidity", "45%", "--to", "70%", "--changes")
    few, many = (keeper.json("habitat", "water", *box, *air, n) for n in ("0.5", "4"))
    assert 45 < many["bowl_keeps_percent"] < few["bowl_keeps_percent"] <= 100


def test_water_condenses_where_it_is_cold(keeper: Keeper) -> None:
    out = keeper.run("habitat", "air", "--at", "30C", "--humidity", "80%", "--to", "20C").stdout
    assert "At 20C water condenses" in out


def test_a_wall_from_a_file(keeper: Keeper, tmp_path: Path) -> None:
    file = tmp_path / "wall.csv"
    file.write_text("thickness_mm,conductivity_w_per_mk\n18,0.14\n", encoding="utf-8")
    films = ("--inside-film", "0.123", "--outside-film", "0.055")
    answer = keeper.json("habitat", "wall", "--layers", file, *films)
    assert answer["u_value_w_per_m2k"] == pytest.approx(1 / (0.178 + 0.018 / 0.14))
    in_a_room = keeper.json("habitat", "wall", "--layers", file)
    assert in_a_room["u_value_w_per_m2k"] == pytest.approx(2.5735, abs=1e-3)


def test_a_size_before_buying(keeper: Keeper) -> None:
    answer = keeper.json(
        *("habitat", "size", "--width", "4ft", "--depth", "2ft", "--height", "1ft"),
        *("--species", "corn snake", "--length", "4ft"),
    )
    rules = {row["name"]: row for row in answer["rules"]}
    union = next(row for name, row in rules.items() if "Union" in name)
    assert union["ok"] is True
    assert union["given_floor_mm2"] == pytest.approx(743_224, rel=1e-3)
    assert union["needed_floor_mm2"] == pytest.approx(250_000)
    assert union["margin_percent"] == pytest.approx(100 * (304.8 / 280 - 1))
    assert all(row["source"] for row in rules.values())


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        (("air", "--at", "86C", "--humidity", "60%"), "between -40 and 80"),
        (("air", "--at", "24C", "--humidity", "101%"), "between 0 and 100"),
        (("air", "--at", "24C", "--humidity", "0%"), "above 0"),
        (("air", "--at", "warm", "--humidity", "60%"), "--at"),
        (("wall", "--layers", "nowhere.csv"), "cannot read"),
    ],
)
def test_bad_input_is_one_line(keeper: Keeper, typed: tuple[str, ...], told: str) -> None:
    result = keeper.run("habitat", *typed, ok=False)
    assert result.code == 2
    assert told in result.stderr and len(result.stderr.strip().splitlines()) == 1


@pytest.mark.parametrize(
    ("rows", "told"),
    [
        ("thickness_mm\n18\n", "conductivity_w_per_mk is missing"),
        ("thickness_mm,conductivity_w_per_mk\n18,thin\n", "line 2: conductivity_w_per_mk"),
        ("thickness_mm,conductivity_w_per_mk\n-3,0.2\n", "line 2: thickness_mm"),
        ("thickness_mm,conductivity_w_per_mk\n", "has no layer"),
    ],
)
def test_bad_walls_are_named_by_line(keeper: Keeper, tmp_path: Path, rows: str, told: str) -> None:
    file = tmp_path / "wall.csv"
    file.write_text(rows, encoding="utf-8")
    result = keeper.run("habitat", "wall", "--layers", file, ok=False)
    assert result.code == 2 and told in result.stderr


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        ({"--width": "0cm"}, "--width is above 0"),
        ({"--animals": "0"}, "--animals is 1 to 20"),
        ({"--to-vent": "200cm"}, "longer than --length"),
        ({"--species": "newt"}, "no species 'newt'"),
    ],
)
def test_bad_sizes_are_refused(keeper: Keeper, changed: dict[str, str], told: str) -> None:
    asked = {"--width": "120cm", "--depth": "60cm", "--height": "60cm", "--length": "120cm"}
    asked |= {"--species": "corn snake", **changed}
    result = keeper.run("habitat", "size", *(x for pair in asked.items() for x in pair), ok=False)
    assert result.code in (2, 3) and told in result.stderr
