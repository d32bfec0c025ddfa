"""How long inbreeding, a planned pairing and genotype chances take, against independent libraries.

PedNet and pgmpy are not among the project's own dependencies: install them to run these. sgkit
wants an older NumPy, so it has an environment of its own, whose Python `WARMSIDE_SGKIT` names.
"""

from __future__ import annotations

import json
import os
import random
import subprocess
import time
from pathlib import Path

import pytest
from tests.bench.measured import hold, medians

from random_pedigrees import clutches, mixed
from warmside.plugins.lineage.kinship.inbreeding import inbreeding
from warmside.plugins.lineage.kinship.pair import kinship
from warmside.plugins.lineage.kinship.pedigree import Pedigree

CPU = time.process_time


@pytest.mark.parametrize(("animals", "runs"), [(1_000, 7), (10_000, 3)])
def test_all_coefficients_against_pednet(animals: int, runs: int) -> None:
    pednet = pytest.importorskip("pednet")
    known = mixed(animals)
    theirs = pednet.pedigree_from_rows(_rows(known))
    ours_s, theirs_s = medians(
        lambda: inbreeding(known), lambda: pednet.inbreeding(theirs), runs=runs, clock=CPU
    )
    hold(f"inbreeding of {animals}", ours_s / theirs_s, 1.0, "times PedNet")


def test_all_coefficients_against_sgkit_in_an_environment_of_its_own() -> None:
    python = os.environ.get("WARMSIDE_SGKIT")
    if not python:
        pytest.skip("name the Python that has sgkit: WARMSIDE_SGKIT=/path/to/bin/python")
    known = mixed(10_000)
    command = [python, str(Path(__file__).with_name("sgkit_inbreeding.py"))]
    parents = json.dumps([known.dam, known.sire])
    run = subprocess.run(command, input=parents, capture_output=True, text=True, check=True)
    theirs = json.loads(run.stdout)
    assert inbreeding(known) == pytest.approx(theirs["inbreeding"], abs=1e-12)
    (ours_s,) = medians(lambda: inbreeding(known), runs=3, clock=CPU)
    hold("inbreeding of 10000", ours_s / theirs["seconds"], 2.0, "times sgkit, compiled")


def _rows(known: Pedigree) -> list[tuple[str, str, str, int, int]]:
    dams = set(known.dam)
    return [
        (f"a{n}", _name(sire), _name(dam), 2 if n in dams else 1, 0)
        for n, (dam, sire) in enumerate(zip(known.dam, known.sire, strict=True))
    ]


def _name(place: int) -> str:
    return "0" if place < 0 else f"a{place}"


def test_time_grows_with_the_animals_where_they_come_in_clutches() -> None:
    small, large = clutches(10_000), clutches(100_000)
    small_s, large_s = medians(
        lambda: inbreeding(small), lambda: inbreeding(large), runs=3, clock=CPU
    )
    hold("inbreeding of 100,000", large_s / small_s, 20.0, "times 10,000")


def test_one_planned_pairing() -> None:
    known = mixed(10_000)
    f = inbreeding(known)
    draw = random.Random(1)
    pairs = [(draw.randrange(9_000, 10_000), draw.randrange(9_000, 10_000)) for _ in range(20)]
    all_s, pairs_s = medians(
        lambda: inbreeding(known),
        lambda: [kinship(known, f, *pair) for pair in pairs],
        runs=5,
        clock=CPU,
    )
    hold("one planned pairing", pairs_s / len(pairs) / all_s, 1 / 50, "times all of 10,000")
