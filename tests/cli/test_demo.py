"""The demo runs the main job in a few seconds and leaves papers that can be read."""

from __future__ import annotations

import json
from datetime import timedelta
from pathlib import Path

import pypdfium2
import pytest
import zxingcpp

from warmside.api import About
from warmside.core.asking.ask import concerns
from warmside.testing import Keeper


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, dict[str, object]]:
    """The demo's folder and its JSON answer."""
    folder = tmp_path_factory.mktemp("demo") / "walk"
    keeper = Keeper(folder.parent / "unused.warmside")
    return folder, json.loads(keeper.run("demo", str(folder), "--json").stdout)


def test_every_command_of_the_demo_succeeds(demo: tuple[Path, dict[str, object]]) -> None:
    folder, answer = demo
    assert answer["steps"] == len(answer["commands"])  # type: ignore[arg-type]
    assert (folder / "demo.warmside").exists()


def test_the_newcomer_comes_last_in_the_round(demo: tuple[Path, dict[str, object]]) -> None:
    folder, _ = demo
    keeper = Keeper(folder / "demo.warmside")
    tasks = keeper.json("today")["tasks"]
    assert tasks[-1]["enclosure"] == "HAL"
    ranks = [t["care_rank"] for t in tasks]
    assert ranks == sorted(ranks) and ranks[-1] > ranks[0]


@pytest.mark.parametrize("days", [0, 25, 90])
def test_of_one_alone_is_found_what_the_round_finds_of_it(
    demo: tuple[Path, dict[str, object]], days: int
) -> None:
    """Asked of one, plugins read for that one alone; a snapshot each, so that nothing is known."""
    keeper = Keeper(demo[0] / "demo.warmside")
    collection, now = keeper.open(), keeper.now + timedelta(days=days)
    with collection.ask(now) as ask:
        whole = ask.findings(ask.book.today)
        subjects = [About(animal_id) for animal_id in ask.book.animals_here()]
        subjects += [About(enclosure_id=place) for place in ask.book.enclosures]
    assert whole
    for about in subjects:
        with collection.ask(now) as ask:
            alone = ask.findings(ask.book.today, about)
        assert {f for f in alone if concerns(f.about, about)} == {
            f for f in whole if concerns(f.about, about)
        }, about


def test_the_labels_scan(demo: tuple[Path, dict[str, object]]) -> None:
    folder, _ = demo
    page = pypdfium2.PdfDocument(folder / "labels.pdf")[0]
    image = page.render(scale=203 / 72).to_pil()
    read = {b.text for b in zxingcpp.read_barcodes(image)}
    assert {text.split(" - ")[-1] for text in read} == {
        f"WS.E.{code}" for code in ("LOW", "WIN", "TAL", "HAL", "FER", "RUS")
    }


def test_the_demo_does_not_touch_a_folder_that_is_there(tmp_path: Path) -> None:
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "mine.txt").write_text("mine")
    result = Keeper(tmp_path / "x.warmside").run("demo", str(tmp_path / "full"), ok=False)
    assert result.code == 4
    assert [p.name for p in (tmp_path / "full").iterdir()] == ["mine.txt"]
