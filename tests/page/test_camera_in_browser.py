"""The camera button in a real browser: chosen, kept, seen, by thumb and at twice the text size."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from invented_pictures import exif, jpeg, picture, write
from page.browsers import PHONE, Browser, driver, needs_browser, served
from page.test_browser import ASIDE, AXE, CONTRAST, JUDGE, OPENED, RULES, SMALL, at_the_desk
from warmside.page.app import Page
from warmside.testing import Keeper

pytestmark = needs_browser()
SEEN = "return [...document.querySelectorAll('ul.strip img')].filter(i => i.naturalWidth).length"


@pytest.fixture
def browser(page: Page) -> Iterator[Browser]:
    """A paired phone."""
    chromium = driver()
    try:
        with served(page) as url:
            made = Browser(chromium, page, url)
            made.look(PHONE)
            yield made.pair()
    finally:
        chromium.quit()


def judged(browser: Browser) -> list[Any]:
    """What cannot be tapped, does not fit, or axe finds wrong, with all unfolded."""
    browser.driver.execute_script(OPENED)
    found: list[Any] = list(browser.driver.execute_script(SMALL))
    browser.driver.execute_script("document.documentElement.style.fontSize = '200%'")
    found += ["sideways at 200 %"] * bool(browser.driver.execute_script(ASIDE))
    if AXE:
        browser.driver.execute_script(Path(AXE).read_text(encoding="utf-8"))
        found += browser.driver.execute_async_script(JUDGE, RULES)
        browser.look(PHONE, dark=True)
        found += browser.driver.execute_async_script(JUDGE, CONTRAST)
        browser.look(PHONE)
    return found


YESTERDAY = """
const done = arguments[0];
const asked = indexedDB.open("warmside-pictures", 1);
asked.onsuccess = () => {
  const store = asked.result.transaction("waiting", "readwrite").objectStore("waiting");
  store.openCursor().onsuccess = event => {
    const found = event.target.result;
    found.update({...found.value, at: found.value.at - 86400000});
  };
  store.transaction.oncomplete = () => { asked.result.close(); done(); };
}"""
FULL = "IDBObjectStore.prototype.add = () => { throw new DOMException('', 'QuotaExceededError') }"


def choose(browser: Browser, photo: Path) -> None:
    """Take the picture while nobody answers."""
    browser.network(there=False)
    browser.tap("Take a picture")
    browser.control("Take a picture of Ember").send_keys(str(photo))
    browser.tap("Keep it")


def test_a_picture_waits_on_the_phone_until_the_network_is_back(
    browser: Browser, keeper: Keeper, tmp_path: Path
) -> None:
    browser.open("WS.A.EMB")
    choose(browser, write(tmp_path, "image.jpg", jpeg(picture(400, 300))))
    browser.reads("1 picture waits on this phone")
    browser.reads("the picture waits on this phone")
    browser.type("What was seen, Ember", "calm")
    browser.tap("Save: observed, Ember")
    browser.reads("1 entry and 1 picture wait on this phone")
    browser.driver.execute_async_script(YESTERDAY)
    browser.network(there=True)
    browser.open("WS.A.EMB")  # also after the page was closed: it lies in the browser's database
    browser.reads("Recorded: took in 1 file of Ember")
    assert "wait" not in browser.text()
    (told,) = at_the_desk(keeper, "picture", "list")["pictures"]
    assert told["day"] == "2026-03-04"  # of the day before, by its age: its camera said none
    assert at_the_desk(keeper, "history", "--last", "1")["events"][0]["kind"] == "observed"


def test_what_is_said_against_a_picture_that_waited_is_told_until_it_was_read(
    browser: Browser, keeper: Keeper, tmp_path: Path
) -> None:
    browser.open("WS.A.EMB")
    choose(browser, write(tmp_path, "image.jpg", b"no picture at all"))
    browser.reads("1 picture waits on this phone")
    browser.network(there=True)
    for _ in range(2):
        browser.open("history")
        browser.reads("That did not work")
        browser.reads("1 picture waits on this phone until you answer")
    browser.tap("Back")
    browser.reads("Ember (EMB)")
    browser.until(lambda: "waits" not in browser.text(), "the picture waits still")
    assert at_the_desk(keeper, "picture", "list")["pictures"] == []


def test_a_picture_that_cannot_wait_is_told_and_stays_chosen(
    browser: Browser, keeper: Keeper, tmp_path: Path
) -> None:
    browser.open("WS.A.EMB")
    browser.driver.execute_script(FULL)
    choose(browser, write(tmp_path, "image.jpg", jpeg(picture(400, 300))))
    browser.reads("this is too large to wait on this phone. Nothing was sent")
    browser.network(there=True)
    browser.tap("Keep it")
    browser.reads("Recorded: took in 1 file of Ember")
    assert len(at_the_desk(keeper, "picture", "list")["pictures"]) == 1


def test_a_picture_is_taken_kept_and_seen(browser: Browser, keeper: Keeper, tmp_path: Path) -> None:
    """The camera's number, turned picture and place are a phone's; the chooser is the browser's."""
    photo = write(tmp_path, "image.jpg", jpeg(picture(400, 300), exif=exif(6)))
    browser.open("WS.A.EMB")
    browser.tap("Take a picture")
    browser.control("Take a picture of Ember").send_keys(str(photo))
    browser.type("What it shows, the same words each time", "left side")
    browser.tap("Keep it")
    browser.reads("Recorded: took in 1 file of Ember")
    browser.until(lambda: browser.driver.execute_script(SEEN) == 1, "no picture is seen")
    (told,) = at_the_desk(keeper, "picture", "list")["pictures"]
    assert (told["view"], told["day"]) == ("left side", "2026-02-14")
    for screen in ("WS.A.EMB", "WS.E.LOW"):
        browser.open(screen)
        assert judged(browser) == [], screen
    browser.open("WS.A.EMB")
    browser.driver.execute_script("document.querySelector('ul.strip a').click()")
    browser.until(lambda: browser.driver.current_url.endswith("/picture/1"))
    assert browser.driver.execute_script("return document.images[0].naturalHeight") == 400
