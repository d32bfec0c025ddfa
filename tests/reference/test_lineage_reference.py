"""Inbreeding and kinship in random pedigrees against PedNet 2.1.0 (see make_pednet_kinship.py)."""

from __future__ import annotations

import csv
import json
from pathlib import Path

import pytest

from warmside.plugins.lineage.kinship.inbreeding import inbreeding
from warmside.plugins.lineage.kinship.pair import kinship
from warmside.plugins.lineage.kinship.pedigree import Row, pedigree
from warmside.testing import Keeper

MADE = json.loads(Path(__file__).with_name("pednet_kinship.json").read_text("utf-8"))["pedigrees"]


@pytest.mark.parametrize("number", range(len(MADE)))
def test_kinship_is_that_of_an_independent_library(number: int) -> None:
    made = MADE[number]
    known = pedigree(Row(a["id"], a["dam"], a["sire"]) for a in made["animals"])
    found = inbreeding(known)
    for id, theirs in enumerate(made["inbreeding"]):
        assert found[known.place[id]] == pytest.approx(theirs, abs=1e-12)
    for id, row in made["kinship"].items():
        for other, theirs in enumerate(row):
            ours = kinship(known, found, known.place[int(id)], known.place[other])
            assert ours == pytest.approx(theirs, abs=1e-12)


def test_the_command_gives_the_same_of_a_file(keeper: Keeper, tmp_path: Path) -> None:
    file = tmp_path / "pedigree.csv"
    with file.open("w", encoding="utf-8", newline="") as out:
        rows = csv.DictWriter(out, ("id", "dam", "sire"))
        rows.writeheader()
        rows.writerows(MADE[0]["animals"])
    answer = keeper.json("lineage", "kinship", file, "--pair", "35", "3")
    assert answer["kinship"] == pytest.approx(MADE[0]["kinship"]["35"][3], abs=1e-12)
    ours = [answer["inbreeding"][str(n)] for n in range(len(MADE[0]["inbreeding"]))]
    assert ours == pytest.approx(MADE[0]["inbreeding"], abs=1e-12)
