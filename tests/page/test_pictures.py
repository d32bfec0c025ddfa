"""README's two pictures of the page: of the invented demo, made by WARMSIDE_WRITE_DOCS=1."""

from __future__ import annotations

import os
from datetime import UTC, datetime
from pathlib import Path

import pytest
from PIL import Image

from page.browsers import PHONE, Browser, driver, needs_browser, served
from warmside.cli.opening import open_collection
from warmside.cli.page_commands import PageCommands
from warmside.cli.plugin_choice import PluginChoice
from warmside.core.session.live import Live
from warmside.page.app import Page
from warmside.page.phones.devices import Devices
from warmside.testing import Keeper

EXAMPLES = Path(__file__).parents[2] / "examples"
PICTURES = {"page-round.png": "", "page-enclosure.png": "WS.E.LOW"}
WRITING = bool(os.environ.get("WARMSIDE_WRITE_DOCS"))
MORNING = datetime(2026, 3, 5, 8, 0, tzinfo=UTC)


@pytest.mark.parametrize("name", PICTURES)
def test_readme_shows_the_page_as_wide_as_a_phone(name: str) -> None:
    readme = (EXAMPLES.parent / "README.md").read_text(encoding="utf-8")
    assert f"examples/{name}" in readme
    with Image.open(EXAMPLES / name) as picture:
        assert picture.size == PHONE


@needs_browser()
@pytest.mark.skipif(not WRITING, reason="WARMSIDE_WRITE_DOCS=1 makes the pictures anew")
def test_the_pictures_are_made_of_the_demo(tmp_path: Path) -> None:
    Keeper(tmp_path / "unused.warmside", MORNING).run("demo", str(tmp_path / "demo"))
    path, choice = tmp_path / "demo/demo.warmside", PluginChoice()
    live = Live(path, lambda p, now: open_collection(p, now, choice), lambda: MORNING)
    page = Page(live, Devices(tmp_path / "phones"), PageCommands(path), ())
    chromium = driver()
    try:
        with served(page) as url:
            browser = Browser(chromium, page, url)
            browser.look(PHONE)
            browser.pair()
            for name, screen in PICTURES.items():
                browser.open(screen)
                browser.picture(EXAMPLES / name, height=PHONE[1])
    finally:
        chromium.quit()
