"""Genotype chances of random families against pgmpy 1.1.2 (see make_pgmpy_chances.py)."""

from __future__ import annotations

import csv
import json
from pathlib import Path

import pytest

from warmside.testing import Keeper

MADE = json.loads(Path(__file__).with_name("pgmpy_chances.json").read_text("utf-8"))


@pytest.mark.parametrize("number", range(len(MADE["families"])))
def test_chances_are_those_of_an_independent_library(
    keeper: Keeper, tmp_path: Path, number: int
) -> None:
    family = MADE["families"][number]
    file = tmp_path / "family.csv"
    with file.open("w", encoding="utf-8", newline="") as out:
        rows = csv.DictWriter(out, ("id", "dam", "sire", "looks"))
        rows.writeheader()
        rows.writerows(family["animals"])
    asked = ("genes", "chances", file, "--frequency", str(MADE["frequency"]))
    found = keeper.json(*asked)["animals"]
    for animal, chances in zip(family["animals"], family["chances"], strict=True):
        ours = found[str(animal["id"])]
        names = ("normal", "het", "visual")
        assert [ours[n] for n in names] == pytest.approx(chances, abs=1e-9)
