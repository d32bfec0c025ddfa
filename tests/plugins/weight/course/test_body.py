"""Signs of the scale in the light of the body condition and of the mass that is wanted."""

from __future__ import annotations

import pytest

from warmside.api import Display, Level
from warmside.plugins.weight.course.body import FRESH_DAYS, Body, seen_beside
from warmside.plugins.weight.course.limits import CUSTOM
from warmside.plugins.weight.course.sign import Sign, WeightSign
from warmside.testing import Keeper

DAY = 738_000.0


def seen(sign: Sign, level: Level, body: Body, last_g: float = 500) -> WeightSign | None:
    it = WeightSign(sign, level, "heavier or lighter", (7, 8), CUSTOM, 0.1)
    return seen_beside(it, body, last_g, Display.METRIC)


@pytest.mark.parametrize("sign", [Sign.YEARS_GAIN, Sign.FAST_GAIN])
def test_a_gain_is_read_with_the_eye(sign: Sign) -> None:
    """Of a fat one it is for a vet, of a thin one it is wanted; between it stays a note."""
    fat = seen(sign, Level.NOTE, Body(4, DAY, 3))
    assert fat and fat.level is Level.LOOK_SOON and fat.events == (3, 7, 8)
    assert "scored 4 of 5 on 2021-07-29: ask a reptile vet" in fat.words
    assert seen(sign, Level.NOTE, Body(2, DAY, 3)) is None
    even = seen(sign, Level.NOTE, Body(3, DAY, 3))
    assert even and even.level is Level.NOTE and "scored" not in even.words


def test_a_gain_up_to_the_wanted_mass_is_no_sign() -> None:
    assert seen(Sign.YEARS_GAIN, Level.NOTE, Body(wanted_g=520)) is None
    assert seen(Sign.YEARS_GAIN, Level.NOTE, Body(wanted_g=480)) is not None


@pytest.mark.parametrize(
    ("sign", "level"), [(Sign.LOSS, Level.ACT_NOW), (Sign.WASTING, Level.LOOK_SOON)]
)
def test_a_thin_one_that_loses_is_for_a_vet_whatever_is_wanted(sign: Sign, level: Level) -> None:
    found = seen(sign, level, Body(1, DAY, 3, wanted_g=300))
    assert found and found.level is level and "ask a reptile vet" in found.words


def test_a_slow_loss_towards_the_wanted_mass_is_a_note_and_a_tenth_is_not() -> None:
    slow = seen(Sign.WASTING, Level.LOOK_SOON, Body(4, DAY, 3, wanted_g=450))
    assert slow and slow.level is Level.NOTE and "450 g that you want" in slow.words
    tenth = seen(Sign.LOSS, Level.ACT_NOW, Body(4, DAY, 3, wanted_g=450))
    assert tenth and tenth.level is Level.ACT_NOW
    below = seen(Sign.WASTING, Level.LOOK_SOON, Body(4, DAY, 3, wanted_g=520))
    assert below and below.level is Level.LOOK_SOON


def test_an_old_score_says_nothing_of_today() -> None:
    body = Body(4, DAY, 3, wanted_g=450)
    assert body.on(DAY + FRESH_DAYS) == body
    assert body.on(DAY + FRESH_DAYS + 1) == Body(wanted_g=450)


def test_the_round_reads_them(weigher: Keeper) -> None:
    """Of one that lost a tenth; undone with the score."""
    weigher.run("record", "weighed", "TUP=255g", "--confirm")
    weigher.run("record", "condition", "TUP=2")
    (found,) = weigher.json("today")["findings"]
    assert "scored 2 of 5" in found["words"]
    weigher.run("undo")
    assert "scored" not in weigher.json("today")["findings"][0]["words"]
