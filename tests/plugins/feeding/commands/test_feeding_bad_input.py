"""Bad input: one line, the right exit code, nothing written."""

from __future__ import annotations

import sqlite3
from contextlib import closing

import pytest

from warmside.testing import Keeper

BAD = [
    (2, "cannot be right", "energy --mass 0g --temperature 30C"),
    (2, "cannot be right", "energy --mass 900000kg --temperature 30C"),
    (2, "outside 0 to 45", "energy --mass 500g --temperature 46C"),
    (2, "outside 0 to 45", "energy --mass 500g --temperature -1C"),
    (2, "mass", "energy --mass many --temperature 30C"),
    (2, "no prey class 'hamster'", "stock add hamster 3"),
    (2, "did you mean mouse-adult", "stock add mouse-adlt 3"),
    (2, "give 0 or more", "stock add --  mouse-adult -3"),
    (2, "give a count of 1 or more", "stock add mouse-adult 0"),
    (2, "weigh one", "stock add mouse-adult 3 --each 0g"),
    (2, "negative", "stock add mouse-adult 3 --price=-2"),
    (2, "in the future", "stock add mouse-adult 3 --frozen 2026-04-01"),
    (3, "nothing is left of lot 7", "stock discard 7"),
    (2, "give a pack size of 1 or more", "pack set mouse-adult 0"),
    (2, "give a pack size of 1 or more", "order --pack mouse-adult=0"),
    (2, "cannot be read", "order --pack mouse-adult"),
    (2, "give 1 to 52", "order --weeks 0"),
    (3, "no pack", "pack drop mouse-adult 25"),
    (3, "there is no animal 'NIX'", "plan NIX"),
    (2, "not both", "plan EMB --all"),
    (2, "use --all", "plan"),
    (3, "no feeding row for Nomen nudum", "plan OTT"),
    (3, "no feeding row for Nomen nudum", "balance OTT"),
    (3, "no feeding row for Nomen nudum", "set OTT --interval 3"),
    (3, "no feeding row for Nomen nudum", "species nudum"),
    (2, "no weight on record", "balance MOS"),
    (2, "weeks to look back", "balance EMB --weeks 0"),
    (2, "nothing to set", "set EMB"),
    (2, "interval 0 to 0 days", "set EMB --interval 0"),
    (2, "meal size", "set EMB --meal 90"),
    (2, "give 0 to 24", "set EMB --warm-hours 25"),
    (2, "no prey class", "set EMB --prey hamster"),
    (3, "nothing is set for Ember", "drop EMB"),
    (2, "name the animals", "fed"),
    (2, "no prey is planned for Reed (REE)", "fed REE"),
    (2, "no prey class", "fed EMB=hamster"),
    (2, "give a count of 1 or more", "fed EMB=0xrat-pup"),
    (2, "no powder", "fed BAS --dust chalk"),
    (2, "none can be dusted", "fed EMB --dust calcium"),
    (2, "taken a part", "fed EMB --refused EMB --part EMB"),
    (2, "at least 1 mg", "fed EMB --each 0g"),
    (2, "at least 1 mg", "fed EMB --each 0g --confirm"),
    (4, "heavier than the animal", "fed BAS=rat-large"),
    (4, "in the future", "fed EMB --at tomorrow"),
]


def dump(keeper: Keeper) -> list[str]:
    with closing(sqlite3.connect(keeper.path)) as connection:
        return list(connection.iterdump())


@pytest.mark.parametrize(("code", "says", "words"), BAD, ids=[b[2] for b in BAD])
def test_bad_input(room: Keeper, code: int, says: str, words: str) -> None:
    room.run("animal", "add", "Reed", "--species", "corn snake", "--since", "2025-01-01")
    room.run("species", "add", "Nomen nudum", "--common", "invented", "--group", "other")
    room.run("animal", "add", "Otto", "--species", "Nomen nudum", "--since", "2025-01-01")
    before = dump(room)
    result = room.run("feeding", *words.split(), ok=False)
    assert (result.code, result.stdout) == (code, "")
    assert says in result.stderr and result.stderr.count("\n") == 1
    assert dump(room) == before
