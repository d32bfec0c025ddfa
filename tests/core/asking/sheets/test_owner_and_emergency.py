"""The next owner's sheet, and the list that hangs by the door."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from pypdf import PdfReader

from warmside.core.answers.parts import Section, paragraphs
from warmside.core.asking.sheets.emergency import WARM
from warmside.core.asking.sheets.owner import without_commands
from warmside.core.plugins.hook_values import LabelLine
from warmside.core.plugins.manifest import Answers
from warmside.core.plugins.sheets import Sheet
from warmside.core.values.about import About
from warmside.core.values.basis import Basis, Estimate
from warmside.core.values.units import Unit
from warmside.testing import Keeper, throw_away_plugin

RULE = Basis("a rule of the test")


def words(path: Path) -> str:
    return "\n".join(page.extract_text() for page in PdfReader(path).pages)


def test_the_next_owner_gets_the_record_and_room_to_sign(house: Keeper, tmp_path: Path) -> None:
    def parts(sheet: Sheet, about: About) -> list[Section]:
        told = paragraphs(f"of {about.animal_id}")
        return [Section("Papers", told, 600)] if sheet is Sheet.OWNER else []

    def lines(about: About) -> list[LabelLine]:
        return [LabelLine("alder.identifier", "ring 17")] if about.animal_id == 1 else []

    hooks = {"warmside_sheet_sections": parts, "warmside_label_lines": lines}
    with throw_away_plugin("alder", **hooks):
        house.run("plugin", "enable", "alder")
        path = tmp_path / "owner.pdf"
        house.run("sheet", "owner", "EMB", "--to", "A. Nother", "--save", path)
        answer = house.json("sheet", "owner", "MOS")
    text = words(path)
    for told in ("A. Nother", "ring 17", "a swab was taken", "signature", "Not legal advice"):
        assert told in text
    assert "of 1" in text
    assert "identifiers" not in answer and answer["to"] == " "


def test_it_is_short_unless_all_is_asked_for(house: Keeper, tmp_path: Path) -> None:
    def report(about: About) -> list[Section]:
        return [Section("Long story", paragraphs(*(f"line {n}" for n in range(200))))]

    def for_others(sheet: Sheet) -> list[Section]:
        told = {Sheet.VET: "Set-up", Sheet.OWNER: "Family"}
        return [Section(told[sheet], paragraphs("in few words"))] if sheet in told else []

    hooks = {"warmside_report_sections": report, "warmside_sheet_sections": for_others}
    with throw_away_plugin("alder", **hooks):
        house.run("plugin", "enable", "alder")
        short, whole = tmp_path / "short.pdf", tmp_path / "whole.pdf"
        house.run("sheet", "owner", "EMB", "--save", short)
        house.run("sheet", "owner", "EMB", "--whole", "--save", whole)
    assert len(PdfReader(short).pages) <= 3 < len(PdfReader(whole).pages)
    text, all_of_it = words(short), words(whole)
    for told in ("last eaten 2026-01-10", "Set-up", "Family", "1.35 kg on 2026-03-01", "signature"):
        assert told in text
    assert "line 7" in all_of_it and "line 7" not in text
    assert all_of_it.count("Family") == 1 and "lives alone" not in text


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("lame: see a vet. It stays here until: warmside record sign", "lame: see a vet"),
        ("lame; see a vet; to end it: warmside health cases", "lame; see a vet"),
        ("weigh it", "weigh it"),
    ],
)
def test_nobody_else_is_told_what_to_type(said: str, told: str) -> None:
    assert without_commands(said) == told


def test_the_history_is_the_newest_part(house: Keeper) -> None:
    sections = house.json("sheet", "owner", "EMB", "--last", "2")["sections"]
    (history,) = [s for s in sections if s["title"].startswith("History")]
    assert history["title"].startswith("History (the last 2 of ")
    assert len(history["events"]) == 2
    told = house.run("sheet", "owner", "EMB", "--last", "0", ok=False).complaint(2)
    assert "--last is at least 1, not 0" in told


def test_the_list_goes_by_room_and_tells_how_long_the_heat_may_be_off(house: Keeper) -> None:
    def warm(about: About, on: date) -> list[Estimate]:
        hours = {1: (2.4, 6.6), 2: (0.2, 0.7), 3: (72.0, 72.0)}[about.enclosure_id or 0]
        return [Estimate(None, *hours, Unit.HOURS, RULE)]

    manifest = {"answers": (Answers(WARM, Unit.HOURS),)}
    with throw_away_plugin("alder", manifest=manifest, warmside_answer=warm):
        house.run("plugin", "enable", "alder")
        (section,) = [
            s for s in house.json("sheet", "emergency")["sections"] if s["title"] == "Who is where"
        ]
    rows = section["animals"]
    assert [(r["room"], r["enclosure"], r["animal"], r["warm"]) for r in rows] == [
        ("Attic", "HIG", "Moss (MOS)", "less than an hour"),
        ("Attic", "LOW", "Ember (EMB)", "2 to 7 h"),
        ("Hall", "FAR", "Fern (FER)", "72 h or more"),
    ]
    assert rows[1]["least_hours"] == 2.4 and rows[1]["most_hours"] == 6.6


def test_hours_that_nobody_can_say_are_never_many(house: Keeper) -> None:
    text = house.run("sheet", "emergency").stdout
    assert text.count("not known: act at once") == 3


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_list_by_the_door_is_one_page(house: Keeper, tmp_path: Path, paper: str) -> None:
    house.run("species", "add", "Vipera ficta", "--common", "paper viper", "--group", "viper")
    house.run("animal", "add", "Asp", "--species", "paper viper", "--enclosure", "FAR")
    path = tmp_path / "door.pdf"
    call = ("--call", "Ann, 0000 111")
    house.run("sheet", "emergency", *call, "--paper", paper, "--save", path)
    assert len(PdfReader(path).pages) == 1
    text = words(path)
    order = ("People first", "VENOMOUS: Asp (ASP) in FAR", "Ann, 0000 111", "Moss (MOS)")
    assert list(order) == sorted(order, key=text.index)


def test_an_empty_collection_has_no_list(keeper: Keeper) -> None:
    assert "no animal is here" in keeper.run("sheet", "emergency", ok=False).complaint(2)
