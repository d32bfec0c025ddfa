"""Pictures on sheets: who is who for a stranger, for a vet what was seen, if there is room."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from invented_pictures import jpeg, paper, picture, write
from warmside.testing import Keeper, new_keeper


@pytest.fixture(scope="module")
def pictured(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Keeper]:
    """Ember with a wound that heals, a portrait and a permit; her shelf; Moss without a picture."""
    folder = tmp_path_factory.mktemp("pictured")
    keeper = new_keeper(folder)
    keeper.run("enclosure", "add", "Shelf")
    for name in ("Ember", "Moss"):
        keeper.run("animal", "add", name, "--species", "ball python", "--enclosure", "SHE")
    keeper.run("record", "weighed", "EMB=412g", "--at", "2026-02-01")
    for n, day in enumerate(("2025-01-01", "2026-02-01", "2026-02-11", "2026-02-21", "2026-03-01")):
        photo = write(folder, f"{n}.jpg", jpeg(picture(30 + n, 20)))
        keeper.run("picture", "add", "EMB", photo, "--view", "wound", "--on", day)
    keeper.run("picture", "add", "EMB", write(folder, "face.jpg", jpeg(picture(50, 50))))
    keeper.run("picture", "add", "EMB", write(folder, "permit.pdf", paper()))
    shelf = write(folder, "shelf.jpg", jpeg(picture(60, 40)))
    keeper.run("picture", "add", "SHE", shelf, "--note", "the valve is behind the lamp")
    yield keeper


def section(answer: Any, title: str) -> Any:
    return next(s for s in answer["sections"] if s["title"] == title)


def test_a_vet_sees_the_newest_of_a_view_and_how_it_went_on(pictured: Keeper) -> None:
    told = section(pictured.json("sheet", "vet", "EMB"), "Pictures")["series_1"]
    assert [shot["words"] for shot in told] == [
        ["2026-02-01", "412 g"],
        ["2026-02-21", "20 days later"],
        ["2026-03-01", "8 days later"],
    ]


def test_a_stranger_is_told_who_is_who(pictured: Keeper) -> None:
    for sheet in (("emergency",), ("sitter", "--until", "2026-03-06")):
        answer = pictured.json("sheet", *sheet)
        (shots,) = (s["faces"] for s in answer["sections"] if "faces" in s)
        assert [(shot["picture"], shot["words"]) for shot in shots] == [(6, ["Ember (EMB)"])]


def test_a_sitter_sees_where_things_are(pictured: Keeper) -> None:
    how = section(pictured.json("sheet", "sitter", "--until", "2026-03-06"), "How")
    assert how["places"][0]["words"] == ["SHE", "the valve is behind the lamp"]


def test_the_next_owner_gets_pictures_and_the_list_of_papers(pictured: Keeper) -> None:
    told = section(pictured.json("sheet", "owner", "EMB"), "Pictures and papers")
    assert len(told["series_1"]) == 5 and [p["picture"] for p in told["papers"]] == [7]


def test_on_one_page_pictures_take_the_room_that_is_left(pictured: Keeper, tmp_path: Path) -> None:
    """They become small before they are left out, and push nothing out that is told."""
    done = pictured.run("sheet", "vet", "EMB", "--save", tmp_path / "vet.pdf")
    reader = PdfReader(tmp_path / "vet.pdf")
    assert len(reader.pages) == 1 and len(reader.pages[0].images) == 3
    assert "left out" not in done.stderr
    asked = [word for n in range(12) for word in ("--question", f"question {n} " + "long " * 60)]
    full = pictured.run("sheet", "vet", "EMB", *asked, "--save", tmp_path / "full.pdf")
    assert "wound" in full.stderr and len(PdfReader(tmp_path / "full.pdf").pages[0].images) == 0
