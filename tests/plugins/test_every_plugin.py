"""Every plugin that ships does what a plugin must, as third parties check theirs."""

from __future__ import annotations

import shlex
from importlib.resources import files
from pathlib import Path

import pytest

from warmside.core.plugins.discovery import BUILT_IN
from warmside.plugins.habitat.described.presets import preset_text
from warmside.testing import check_plugin

TYPED = {
    "feeding": (
        "feeding set EMB --interval 10-14 --prey mouse",
        "feeding drop EMB",
        "feeding stock add mouse-adult 25 --price 30.50",
        "feeding stock discard 1 --count 2 --reason thawed",
        "feeding pack set mouse-adult 25 --price 30.50",
        "feeding fed EMB=mouse-adult",
    ),
    "genes": (
        "genes known EMB 'het piebald, visual mojave'",
        "genes add 'ball python' ember --shows dominant --source invented",
    ),
    "habitat": (
        "habitat describe SHE {dir}/set_up.toml --confirm",
        "habitat add vent SHE --wall back --area 60cm2 --why air",
        "habitat logger SHE grey --probe T1=warm --probe RH=hide:humidity",
        "habitat read grey {dir}/log.csv",
        "record habitat.read SHE --zone stone --surface 38C --uv-index 4.5",
        "record habitat.metered SHE --used 0.6kWh --over 24h --outside 20C --inside 28C",
        "habitat stop grey",
    ),
    "health": (
        "record health.case EMB --state open --what wheezing --recheck 2026-03-20",
        "record health.case EMB --state closed --what 'well again'",
        "health order EMB 'medicine A' --dose '0.1 ml' --amount 0.1ml --every '12 hours' "
        "--clock 08:00 --doses 6 --by 'Dr. Reed' --bottle 5ml --feeding 'half a mouse'",
        "record sign EMB=wheezing",
        "health visit EMB --told 'come again' --recheck 2026-03-20",
        "health food EMB 'no food' --until 2026-03-08",
        "record treated EMB --what 'medicine A' --at '2026-03-05 08:00'",
        "health stop EMB 'medicine A' --by 'Dr. Reed'",
        "health appointment EMB 2026-03-12 --clock 10:30",
        "health sample EMB faeces --lab 'Laboratory A'",
        "health result EMB faeces --says 'nothing seen'",
        "health vaccinated EMB 'vaccine Q'",
        "health vet 'Green practice' --telephone 0000",
        "health drop-vet green",
        "health vet 'Night clinic' --emergency 0000",
        "health death EMB --found 'lay still' --necropsy 'asked for'",
    ),
    "labels": (
        "labels note EMB donot lifting",
        "labels calibrate set desk --across 99 --down 100 --left 20 --top 20 --top-right 20",
        "labels calibrate drop desk",
    ),
    "lineage": (
        "lend EMB --to 'A. Nother' --until 2026-06-01",
        "lineage loan agree EMB --ours 50% --odd us",
        "clutch add --code C1 --dam EMB",
        "lineage loan divide EMB C1 --ours 2 --theirs 2",
        "lineage import {dir}/family.csv",
        "lineage laid EMB --eggs 5 --misfit 1 --kept 31C --at 2026-01-02",
        "lineage eggs check C2 --good 3",
        "lineage eggs incubate C2 --kept 30C",
        "lineage hatch C2 '54g visual' normal --lost 1 --confirm",
        "record lineage.cycle EMB --seen ovulation",
        "record lineage.nest EMB --confirm",
    ),
    "papers": (
        "papers mark EMB 276098100123456 --place 'left side'",
        "papers mark EMB 'ring 17' --kind ring",
        "papers unmark 2",
        "papers add permit --animal EMB --number 12-3 --by office --issued 2025-01-02 "
        "--until 2026-04-01 --kept folder",
        "papers add licence",
        "papers change 1 --until 2027-04-01",
        "papers end 2",
    ),
    "quarantine": (
        "quarantine start EMB",
        "quarantine laboratory flotation --sensitivity 0.8",
        "quarantine protocol edit general days=100",
        "quarantine sample EMB faecal",
        "record moved EMB --enclosure BOX",
    ),
    "rhythm": (
        "rhythm set cleaned SHE --every 28",
        "rhythm set weighed --every 30",
        "rhythm drop weighed",
    ),
    "shed": ("record shedding EMB=opaque", "record shed EMB --outcome pieces --retained toes"),
    "signs": ("record sign EMB=wheezing", "record climate SHE --warm 31C"),
    "weight": (
        "weight reference import {dir}/reference.csv --species 'ball python'",
        "weight reference assign reference EMB",
        "record weighed EMB=400g",
    ),
}
"""Commands that write, by plugin; the reference is the invented one that weight ships."""


@pytest.mark.parametrize("name", sorted(BUILT_IN))
def test_it_is_a_good_plugin(name: str, tmp_path: Path) -> None:
    reference = files("warmside.plugins.weight") / "data" / "example_reference.csv"
    (tmp_path / "reference.csv").write_text(reference.read_text("utf-8"), "utf-8")
    family = "id,dam,sire,species\nMA,,,ball python\nKID,MA,,ball python\n"
    (tmp_path / "family.csv").write_text(family, "utf-8")
    (tmp_path / "log.csv").write_text("time,T1,RH\n2026-03-05 08:00,30,55\n", "utf-8")
    set_up = preset_text("tub").replace("# SAY ", "")
    (tmp_path / "set_up.toml").write_text(set_up, "utf-8")
    typed = [shlex.split(line.format(dir=tmp_path)) for line in TYPED[name]]
    check_plugin(name, tmp_path, typed=typed)
