"""What two commands say of the same thing is the same: they ask in one place."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from warmside.core.plugins.discovery import BUILT_IN
from warmside.testing import Keeper, new_keeper

TASK = ("enclosure", "subject", "what", "why", "due", "settles", "plugin", "source", "mark")


@pytest.fixture(scope="module")
def room(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Keeper]:
    """Two animals at home and a newcomer in quarantine, with every plugin at work."""
    keeper = new_keeper(tmp_path_factory.mktemp("agreement"), plugins=sorted(BUILT_IN))
    for name in ("Low", "High", "Hall"):
        keeper.run("enclosure", "add", name, "--room", name)
    for name, place in (("Ember", "LOW"), ("Juno", "HIG")):
        species = ("--species", "ball python", "--hatched", "2020")
        keeper.run("animal", "add", name, *species, "--enclosure", place, "--since", "2025-11-01")
    keeper.run("rhythm", "set", "watered", "--every", "3")
    keeper.run("record", "weighed", "EMB=800g", "JUN=900g", "--at", "2026-02-01")
    keeper.run("record", "fed", "EMB=mouse-adult", "--outcome", "refused", "--at", "2026-02-20")
    keeper.run("arrive", "Saffron", "--species", "rainbow boa", "--enclosure", "HAL")
    yield keeper


def part(rows: list[dict[str, Any]], keys: tuple[str, ...]) -> list[tuple[Any, ...]]:
    return [tuple(row.get(k) for k in keys) for row in rows]


@pytest.mark.parametrize("code", ["LOW", "HIG", "HAL"])
def test_scanning_a_label_shows_what_the_round_shows_for_that_place(
    room: Keeper, code: str
) -> None:
    round_ = [t for t in room.json("today")["tasks"] if t["enclosure"] == code]
    scanned = room.json("scan", f"WS.E.{code}")["tasks"]
    assert round_, "something is due there"
    assert part(scanned, TASK) == part(round_, TASK)


def test_reports_and_scans_tell_the_findings_of_the_round(room: Keeper) -> None:
    told = {(f["subject"], f["words"]) for f in room.json("today")["findings"]}
    assert told
    seen = set()
    for code in ("LOW", "HIG", "HAL"):
        sections = {s["title"]: s for s in room.json("report", code)["sections"]}
        mine = {(f["subject"], f["words"]) for f in sections["Findings"].get("findings", ())}
        scanned = room.json("scan", f"WS.E.{code}")["findings"]
        assert {(f["subject"], f["words"]) for f in scanned} == mine
        seen |= mine
    assert told <= seen
    left_to_tasks = {(subject, "weigh it first" in words) for subject, words in seen - told}
    assert left_to_tasks == {("Saffron (SAF)", True)}
    tasks = [(t["animal"], t["what"]) for t in room.json("today")["tasks"]]
    assert ("SAF", "weighing") in tasks, "the round leaves it to this task, a report tells it"


def test_the_calendar_begins_with_the_round(room: Keeper, tmp_path: Path) -> None:
    room.run("calendar", str(tmp_path / "week.ics"), "--weeks", "1")
    text = (tmp_path / "week.ics").read_text().replace("\r\n ", "").replace("\\,", ",")
    for task in room.json("today")["tasks"]:
        assert task["what"] in text


@pytest.mark.parametrize(
    "command",
    [
        "record weighed JUN=905g",
        "feeding fed EMB=mouse-adult --confirm",
        "quarantine check SAF mites",
        "quarantine sample SAF faecal",
        "move JUN --to HIG",
        "done WATER",
    ],
)
def test_every_recording_command_answers_alike(room: Keeper, command: str) -> None:
    plain = room.json("record", "observed", "EMB=calm")["recorded"][0]
    room.run("undo")
    due = {t["what"]: str(t["number"]) for t in room.json("today")["tasks"]}
    words = [due["fresh water"] if w == "WATER" else w for w in command.split()]
    typed = room.run(*words, "--json", ok=False)
    assert typed.code == 0, typed.stderr
    room.run("undo")
    assert typed.json["recorded"]
    for row in typed.json["recorded"]:
        assert row.keys() == plain.keys()
