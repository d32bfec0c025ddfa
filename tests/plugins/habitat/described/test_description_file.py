"""A description file is read as it is meant, or refused with its line."""

from __future__ import annotations

import pytest

from warmside.api import BadInput
from warmside.plugins.habitat.described.choice import gaps, hides_by_zone
from warmside.plugins.habitat.described.description_file import read_description
from warmside.plugins.habitat.described.enclosure import Enclosure
from warmside.plugins.habitat.described.presets import PRESETS, preset_text


def said(name: str) -> str:
    """A preset with all that only the keeper can see said to be so."""
    return preset_text(name).replace("# SAY ", "")


def snake(*changes: tuple[str, str]) -> Enclosure:
    text = said("snake")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    return read_description(text, "snake.toml")


def codes(found: Enclosure) -> list[str]:
    return [gap.code for gap in gaps(found)]


@pytest.mark.parametrize("name", PRESETS)
def test_a_preset_does_not_claim_a_thermostat_that_nobody_has_seen(name: str) -> None:
    with pytest.raises(BadInput, match=r"line \d+: .* is true or false; it has to be said"):
        read_description(preset_text(name), f"{name}.toml")


@pytest.mark.parametrize("name", PRESETS)
def test_a_preset_that_is_as_described_lacks_nothing(name: str) -> None:
    found = read_description(said(name), f"{name}.toml")
    assert codes(found) == []
    assert all(f.why for f in (*found.fittings, *found.heats, *found.lights))
    assert sum(hides_by_zone(found).values()) >= 2


def test_each_gap_is_found() -> None:
    """No hide on a side, no water, no thermostat, no guard, no way out of the light."""
    assert codes(snake(('kind = "hide"', 'kind = "cork"'))) == ["hide"]
    assert codes(snake(('kind = "water bowl"', 'kind = "rock"'))) == ["water"]
    assert codes(snake(("thermostat = true", "thermostat = false"))) == ["thermostat"]
    assert codes(snake(("guard = true", "guard = false"))) == ["guard"]
    out_of_reach = snake(("guard = true", "guard = false"), ("reach = true", "reach = false"))
    assert codes(out_of_reach) == []
    bright = ("leave = true", "leave = false")
    assert codes(snake(bright)) == []
    assert codes(snake(bright, ("air_changes", "light_sensitive = true\nair_changes"))) == ["light"]


def test_a_four_foot_enclosure_has_eight_square_feet_and_eight_cubic() -> None:
    """48 x 24 x 12 in (common practice, no source): 8 ft2 = 0.743 m2, 8 ft3 = 0.227 m3."""
    found = snake(('"122cm"', '"48in"'), ('"61cm"', '"24in"'), ('"30cm"', '"12in"'))
    assert found.floor_m2 == pytest.approx(8 * 0.09290304)
    assert found.volume_m3 == pytest.approx(8 * 0.028316847)


WARM = 'name = "warm side"'
COOL = 'name = "cool side"'


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('width = "122cm"', 'width = "0cm"', "line 8: width is above 0"),
        ('width = "122cm"', 'width = "-4cm"', "line 8: width"),
        ('width = "122cm"', "width = 122", "line 8: width is needed, as a text with its unit"),
        ('wall = "wood"', 'wall = "straw"', "line 11: wall is one of glass"),
        ('wall = "wood"', 'wal = "wood"', "wall is needed"),
        (WARM, WARM + '\nair = ["86C", "90C"]', "line 17: air of 90 is over 60; is it Fahr"),
        (WARM, WARM + '\nhumidity = ["60%", "101%"]', "line 17: humidity"),
        (WARM, WARM + '\nair = ["32C", "30C"]', "line 17: air goes from the lower"),
        (COOL, COOL + '\nplace = "floor"', "there is no 'place' here"),
        ('zone = "middle"', 'zone = "attic"', "zone is one of warm side, middle, cool side"),
        ('left = "94cm"', 'left = "1m"', "reaches to 124 cm, the enclosure is 122 cm there"),
        ("watts = 80", 'watts = "eighty"', "watts is a number from 0 to 2000"),
        ("hours = 12", "hours = 25", "hours is a number from 0 to 24"),
        (COOL, 'name = "middle"', "there are two zones named 'middle'"),
        ('wall_thickness = "15mm"', 'wall_thickness = "15cm"', "the wall is thicker"),
        ('depth = "61cm"', "depth = ", "snake.toml, line 9: this is no TOML"),
    ],
)
def test_what_cannot_be_is_refused_with_its_line(old: str, new: str, told: str) -> None:
    with pytest.raises(BadInput) as wrong:
        snake((old, new))
    assert told in str(wrong.value)
    assert str(wrong.value).startswith("snake.toml")


def test_a_cool_side_that_is_warmer_is_asked_about() -> None:
    with pytest.raises(BadInput, match="'cool side' is warmer than 'warm side' before it"):
        snake((WARM, WARM + '\nair = ["24C", "26C"]'), (COOL, COOL + '\nair = ["30C", "32C"]'))
