"""A set-up built and changed thing by thing."""

from __future__ import annotations

from pathlib import Path

import pytest

from warmside.plugins.habitat.described.description_file import read_description
from warmside.plugins.habitat.described.enclosure import Enclosure
from warmside.testing import Keeper, copy_of, new_keeper

BOX = ("--wall", "wood", "--wall-thickness", "15mm")
ZONES = ("--zones", "warm side 50cm, cool side 70cm")
HIDE = ("--width", "30cm", "--depth", "20cm", "--height", "10cm", "--why", "cover")


@pytest.fixture(scope="module")
def bare(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """An enclosure whose box and zones are described."""
    keeper = new_keeper(tmp_path_factory.mktemp("bare"), plugins=["habitat"])
    size = ("--width", "120cm", "--depth", "60cm", "--height", "60cm")
    keeper.run("enclosure", "add", "Low", "--code", "LOW", *size)
    keeper.run("habitat", "describe", "LOW", *BOX, *ZONES)
    return keeper


@pytest.fixture
def keeper(bare: Keeper, tmp_path: Path) -> Keeper:
    return copy_of(bare, tmp_path)


def set_up(keeper: Keeper) -> Enclosure:
    out = keeper.path.parent / "out.toml"
    out.unlink(missing_ok=True)
    keeper.run("habitat", "export", "LOW", out)
    return read_description(out.read_text("utf-8"), "out.toml")


def test_the_box_takes_its_size_from_the_record(keeper: Keeper) -> None:
    found = set_up(keeper)
    assert (found.width, found.depth, found.height) == (1200, 600, 600)
    assert [(z.name, z.left, z.width) for z in found.zones] == [
        ("warm side", 0, 500),
        ("cool side", 500, 700),
    ]


def test_another_size_than_that_on_record_is_asked_about(keeper: Keeper) -> None:
    told = keeper.run("habitat", "describe", "LOW", "--width", "90cm", *BOX, *ZONES, ok=False)
    assert "cm wide on record and 90 cm" in told.complaint(2) or "wider" in told.stderr
    narrow = ("--zones", "warm side 40cm, cool side 50cm")
    told = keeper.run("habitat", "describe", "LOW", "--width", "90cm", *BOX, *narrow, ok=False)
    assert "120 cm wide on record and 90 cm as described" in told.complaint(4)
    assert set_up(keeper).width == 1200
    keeper.run("habitat", "describe", "LOW", "--width", "90cm", *BOX, *narrow, "--confirm")
    assert set_up(keeper).width == 900
    keeper.run("habitat", "change", "LOW", "warm side", "--air", "30C-32C")


def test_things_are_added_changed_and_taken_out(keeper: Keeper) -> None:
    keeper.run("habitat", "add", "humid-hide", "LOW", "--zone", "cool side", *HIDE)
    keeper.run("habitat", "add", "hide", "LOW", "--zone", "warm side", *HIDE)
    damp, hide = set_up(keeper).fittings
    assert (damp.kind, damp.place.left, hide.kind, hide.why) == ("humid hide", 500, "hide", "cover")
    keeper.run("habitat", "change", "LOW", "2", "--left", "12cm", "--why", "the warm one")
    assert set_up(keeper).fittings[1].place.left == 120
    keeper.run("habitat", "remove", "LOW", "1")
    assert [f.why for f in set_up(keeper).fittings] == ["the warm one"]
    keeper.run("undo")
    assert len(set_up(keeper).fittings) == 2


def test_a_change_keeps_what_the_keeper_wrote_beside_it(keeper: Keeper, tmp_path: Path) -> None:
    given = tmp_path / "given.toml"
    keeper.run("habitat", "export", "LOW", given)
    given.write_text("# built by hand in spring\n" + given.read_text("utf-8"), "utf-8")
    keeper.run("habitat", "describe", "LOW", given)
    keeper.run("habitat", "add", "vent", "LOW", "--wall", "back", "--area", "60cm2", "--why", "air")
    keeper.run("habitat", "export", "LOW", tmp_path / "now.toml")
    assert (tmp_path / "now.toml").read_text("utf-8").startswith("# built by hand in spring\n")
    assert [(v.wall, v.area) for v in set_up(keeper).vents] == [("back", 6000)]


def test_a_zone_that_is_renamed_keeps_what_is_in_it(keeper: Keeper) -> None:
    keeper.run("habitat", "add", "hide", "LOW", "--zone", "warm side", *HIDE)
    air = ("--air", "30C-32C", "--humidity", "50% to 60%")
    keeper.run("habitat", "change", "LOW", "warm side", "--name", "ledge", *air)
    found = set_up(keeper)
    assert found.zones[0].air == (30, 32) and found.zones[0].humidity == (50, 60)
    assert found.fittings[0].zone == found.zones[0].name == "ledge"


def test_a_change_that_a_later_description_would_hide_is_refused(keeper: Keeper) -> None:
    told = keeper.run(
        *("habitat", "add", "hide", "LOW", "--zone", "warm side", *HIDE, "--on", "2026-03-01"),
        ok=False,
    )
    assert "nobody has described LOW for that day" in told.complaint(3)
    keeper.run("habitat", "describe", "LOW", *BOX, *ZONES, "--on", "2026-02-01")
    told = keeper.run("habitat", "remove", "LOW", "cool side", "--on", "2026-03-01", ok=False)
    assert "described anew from 2026-03-05 on" in told.complaint(2)


@pytest.mark.parametrize(
    ("typed", "code", "told"),
    [
        (("add", "sofa", "LOW"), 2, "'sofa' is none of: hide, humid hide"),
        (("add", "hide", "NO"), 3, "NO"),
        (("add", "hide", "LOW"), 2, "not said: its zone (warm side, cool side); add --zone"),
        (("add", "hide", "LOW", "--zone", "attic", *HIDE), 2, "'attic' is none of"),
        (("add", "hide", "LOW", "--zone", "warm side", *HIDE, "--watts", "5"), 2, "no --watts"),
        (
            ("add", "hide", "LOW", "--zone", "warm side", *HIDE, "--left", "100cm"),
            2,
            "reaches to 130 cm, the enclosure is 120 cm there",
        ),
        (
            ("add", "vent", "LOW", "--wall", "back", "--area", "8000cm2", "--why", "air"),
            2,
            "no smaller than the back itself (7200 cm²)",
        ),
        (
            ("add", "vent", "LOW", "--wall", "back", "--area", "0cm2", "--why", "air"),
            2,
            "area is above 0",
        ),
        (
            ("add", "light", "LOW", "--name", "tube", "--leave", "maybe", "--why", "day"),
            2,
            "--leave is yes or no, not 'maybe'",
        ),
        (("change", "LOW", "9", "--why", "x"), 3, "nothing in it is marked '9'"),
        (("change", "LOW", "box"), 2, "nothing is changed"),
        (("change", "LOW", "box", "--wall", "straw"), 2, "wall is one of glass"),
        (("change", "LOW", "box", "--width", "-4cm"), 2, "is below zero"),
        (("change", "LOW", "warm side", "--air", "86C-90C"), 2, "is it Fahrenheit?"),
        (("change", "LOW", "warm side", "--air", "30C"), 2, "two values"),
        (("change", "LOW", "warm side", "--humidity", "60%-101%"), 2, "humidity"),
        (("remove", "LOW", "box"), 2, "not taken out"),
    ],
)
def test_what_cannot_be_is_one_clear_line(
    bare: Keeper, typed: tuple[str, ...], code: int, told: str
) -> None:
    """A refusal writes nothing, so all of them share one collection."""
    before = bare.path.read_bytes()
    assert told in bare.run("habitat", *typed, ok=False).complaint(code)
    assert bare.path.read_bytes() == before


def test_a_cool_side_that_is_to_be_warmer_than_the_warm_side_of_who_lives_there_is_asked_about(
    keeper: Keeper,
) -> None:
    keeper.run("animal", "add", "Ember", "--species", "corn snake", "--enclosure", "LOW")
    warm = ("habitat", "change", "LOW", "cool side", "--air", "32C-34C")
    told = keeper.run(*warm, ok=False).complaint(4)
    assert "warm side of a corn snake (28 to 31 °C)" in told
    assert set_up(keeper).zones[1].air is None
    keeper.run(*warm, "--confirm")
    assert set_up(keeper).zones[1].air == (32, 34)
