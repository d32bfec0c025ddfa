"""Of an animal that has died, no plugin asks for anything more (invented animals)."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from warmside.core.plugins.discovery import BUILT_IN
from warmside.testing import Keeper, copy_of, new_keeper

ASKED_FOR = (
    ("feeding", "set", "EMB", "--interval", "7"),
    ("record", "weighed", "EMB=500g", "--at", "2025-06-01"),
    ("record", "weighed", "EMB=400g", "--at", "2026-02-01"),
    ("record", "fed", "EMB", "--item", "adult mouse", "--at", "2025-12-01"),
    ("record", "fed", "EMB", "--item", "adult mouse", "--outcome", "refused", "--at", "2026-02-01"),
    ("record", "shedding", "EMB=opaque", "--at", "2026-02-01"),
    ("record", "shed", "EMB", "--outcome", "pieces", "--retained", "toes", "--at", "2026-02-10"),
    ("record", "sign", "EMB=wheezing", "--at", "2026-02-20"),
    ("record", "condition", "EMB", "--score", "1", "--at", "2026-02-20"),
    ("record", "observed", "EMB", "--what", "mites at the chin", "--at", "2026-02-20"),
    ("rhythm", "set", "weighed", "EMB", "--every", "7"),
    ("quarantine", "start", "EMB", "--at", "2026-02-01"),
    ("quarantine", "sample", "EMB", "faecal", "--at", "2026-02-02"),
    (
        *("health", "visit", "EMB", "--told", "ill", "--recheck", "2026-03-12"),
        *("--awaited", "swab", "--at", "2026-02-15"),
    ),
    (
        *("health", "order", "EMB", "medicine A", "--dose", "5 mg/kg", "--every", "daily"),
        *("--by", "Dr. Reed", "--confirm", "--from", "2026-02-20", "--at", "2026-02-20"),
    ),
)
OF_THE_BODY = "quarantine.death"
"""What to do with the body and with those that shared its air: it wants nothing of the dead."""
AHEAD = (0, 1, 10, 100, 400)


@pytest.fixture(scope="module")
def all_of_it(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """A keeper with every plugin, of whose only animal all of them want something."""
    keeper = new_keeper(tmp_path_factory.mktemp("death"), plugins=sorted(BUILT_IN))
    keeper.run("enclosure", "add", "Shelf", "--room", "Main")
    about = ("--species", "corn snake", "--enclosure", "SHE", "--since", "2025-01-01")
    keeper.run("animal", "add", "Ember", "--hatched", "2020-06-01", *about)
    for line in ASKED_FOR:
        keeper.run(*line)
    return keeper


def asking(keeper: Keeper) -> set[str]:
    """The plugins that want anything of Ember, today or on days to come."""
    found = set()
    with keeper.ask() as ask:
        ember = ask.book.animal("EMB").id
        for ahead in AHEAD:
            on = ask.book.today + timedelta(days=ahead)
            found |= {plugin for plugin, task in ask.tasks(on) if task.about.animal_id == ember}
            findings = ask.findings(on)
            codes = {f.code for f in findings if f.about.animal_id == ember}
            found |= {code.split(".")[0] for code in codes - {OF_THE_BODY}}
    return found


def test_every_plugin_falls_silent(all_of_it: Keeper, tmp_path: Path) -> None:
    keeper = copy_of(all_of_it, tmp_path)
    wanting = {"feeding", "health", "quarantine", "rhythm", "shed", "signs", "weight"}
    assert asking(keeper) >= wanting, "else the test proves nothing"
    keeper.run("record", "died", "EMB", "--circumstances", "found in the morning")
    assert asking(keeper) == set()
    told = keeper.run("report", "EMB").stdout
    assert "feed " not in told and "last weight" in told and "expected now" not in told


def test_a_necropsy_and_those_beside_it_are_asked_about_once(tmp_path: Path) -> None:
    """By the task of the one plugin; the finding of the other tells of the quarantine alone."""
    keeper = new_keeper(tmp_path, plugins=["health", "quarantine"])
    keeper.run("enclosure", "add", "Tub", "--room", "Hall")
    for name in ("Ember", "Moss"):
        about = ("--species", "corn snake", "--enclosure", "TUB", "--how", "bought")
        keeper.run("arrive", name, *about, "--at", "2026-02-20", "--confirm")
    keeper.run("record", "died", "EMB")
    found = keeper.json("today", "--why")
    (death,) = (f["words"] for f in found["findings"] if f["code"] == "quarantine.death")
    asked = [t["what"] for t in found["tasks"]]
    assert [("necropsy" in what) for what in asked].count(True) == 1 and "necropsy" not in death
    assert [("and weigh them" in what) for what in asked].count(True) == 1
    assert "shared its air: Moss (MOS)" in death and "weigh" not in death
    keeper.run("plugin", "disable", "health")
    (death,) = (f["words"] for f in keeper.json("today")["findings"] if "death" in f["code"])
    assert "necropsy" in death and "watch and weigh those" in death
