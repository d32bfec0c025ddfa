"""The vet's sheet: one page, what is wrong first, then the history in a vet's order.

The order of the history is held against the questions of Cannon and Johnson, Handling and Nursing
Reptiles (Australian Veterinary Association; read as copied on yumpu.com, document 20009646).
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from warmside.core.answers.parts import Section, paragraphs
from warmside.core.plugins.sheets import Place, Sheet
from warmside.core.values.about import About
from warmside.testing import Keeper, throw_away_plugin

LECTURE = ("Housing", "Company", "Treatment")
"""Housing, then cage mates, newcomers and quarantine, and past illness last."""
SIGNS_FIRST = ("Why it comes", "Weight", "Food", "Droppings", "Sheds")
"""Common practice, no source, but that sheds come after droppings, as in the lecture."""


def sections(keeper: Keeper, *more: str) -> dict[str, Any]:
    return {s["title"]: s for s in keeper.json("sheet", "vet", "EMB", *more)["sections"]}


def said(section: dict[str, Any]) -> str:
    return " ".join(note["text"] for note in section["notes"])


def test_what_is_wrong_comes_first_and_then_what_a_vet_asks(house: Keeper) -> None:
    assert tuple(sections(house))[:8] == (*SIGNS_FIRST, *LECTURE)


def test_the_record_answers_each_question(house: Keeper) -> None:
    found = sections(house, "--reason", "whistles")
    (sign,) = found["Why it comes"]["signs"]
    assert sign["sign"] == "noisy breathing" and sign["where"] == "loud"
    assert sign["when"] == "since 2026-02-25, seen 2 times, last 2026-03-03"
    assert "whistles" in said(found["Why it comes"])
    assert "10 % below the heaviest of a year, 1.5 kg on 2025-12-01" in said(found["Weight"])
    assert "last eaten 2026-01-10 (54 days ago)" in said(found["Food"])
    assert "2 meals refused since" in said(found["Food"])
    assert "loose" in said(found["Droppings"])
    assert "pieces" in said(found["Sheds"])
    assert "warm side 29 °C to 31 °C" in said(found["Housing"])
    assert "1 other animal in the room; 3 animals in all" in said(found["Company"])
    assert "Fern (FER), crested gecko on 2026-02-13" in said(found["Company"])
    assert "a swab was taken" in said(found["Treatment"])


def test_an_animal_without_a_record_says_what_is_missing(house: Keeper) -> None:
    text = house.run("sheet", "vet", "FER").stdout
    for missing in (
        "reason for the visit: ____",
        "no sign of illness is on record",
        "no weighing is on record for a year",
        "no meal that was eaten is on record",
        "no temperature was written down in the last 60 days",
        "no visit to a vet and no dose given is on record for a year",
    ):
        assert missing in text
    assert "!" not in text, "what is not known is not an alarm"


@pytest.mark.parametrize(("paper", "height"), [("a4", 842), ("letter", 792)])
def test_it_is_one_page_on_either_paper(
    house: Keeper, tmp_path: Path, paper: str, height: int
) -> None:
    path = tmp_path / "vet.pdf"
    asked = ("--reason", "whistles", "--question", "is it warm enough?", "--keeper", "Ann, 0000")
    written = house.run("sheet", "vet", "EMB", *asked, "--paper", paper, "--save", path)
    (page,) = PdfReader(path).pages
    text = page.extract_text()
    assert round(float(page.mediabox.height)) == height
    assert "left out" not in text + written.stderr
    order = ["whistles", "noisy breathing", "Weight", "Food", "Company", "is it warm", "Ann, 0000"]
    assert sorted(order, key=text.index) == order


def test_paper_goes_as_the_units_of_the_collection_go(house: Keeper, tmp_path: Path) -> None:
    house.run("file", "change", "--units", "us trade")
    path = tmp_path / "vet.pdf"
    house.run("sheet", "vet", "EMB", "--save", path)
    assert round(float(PdfReader(path).pages[0].mediabox.height)) == 792


def test_what_is_said_elsewhere_on_another_day_is_not_told(house: Keeper) -> None:
    found = sections(house, "--on", "2026-01-12")
    assert "signs" not in found["Why it comes"] or not found["Why it comes"]["signs"]
    assert "last eaten 2026-01-10 (2 days ago)" in said(found["Food"])
    assert "refused" not in said(found["Food"])


def test_the_whole_year_is_there_on_demand(house: Keeper) -> None:
    last = list(sections(house, "--whole").values())[-1]
    assert len(last["events"]) == 11


def test_a_plugins_part_stands_where_it_belongs(house: Keeper) -> None:
    def parts(sheet: Sheet, about: About) -> list[Section]:
        told = Section("Samples", paragraphs(f"of {about.animal_id}"), Place.TREATMENT)
        return [told] if sheet is Sheet.VET else []

    with throw_away_plugin("alder", warmside_sheet_sections=parts):
        house.run("plugin", "enable", "alder")
        titles = list(sections(house))
        assert titles.index("Samples") == titles.index("Treatment") + 1
        assert said(sections(house)["Samples"]) == "of 1"


def test_bad_input_is_told_in_a_line(house: Keeper) -> None:
    told = house.run("sheet", "vet", "EMB", "--paper", "lettre", ok=False).complaint(2)
    assert "there is no paper lettre (did you mean 'letter'?); type a4 or letter" in told
    many = ("--question", "why?") * 13
    told = house.run("sheet", "vet", "EMB", *many, ok=False).complaint(2)
    assert "13 questions do not fit; ask at most 12 at a visit" in told
    assert "no animal" in house.run("sheet", "vet", "EMBR", ok=False).complaint(3)


def test_of_a_dead_animal_that_is_said_first(house: Keeper) -> None:
    house.run("record", "died", "EMB", "--circumstances", "found in the morning")
    assert said(sections(house)["Why it comes"]).startswith("2026-03-05")
    text = house.run("sheet", "vet", "EMB").stdout
    assert "died: found in the morning" in text and "age at death" in text
