"""The page in a real browser: every screen fits and can be used, every task in its number of taps.

What may be tapped is at least 44 CSS pixels wide and high (WCAG 2.2, 2.5.5, level AAA); contrast,
names and structure are judged by axe-core with the rules of WCAG 2.2 A and AA; text of twice the
size needs no sideways scrolling (1.4.4, 1.4.10).
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from page.browsers import AXE, DESK, PHONE, Browser, driver, needs_browser, served
from page.phones import Clock
from warmside.page.app import Page
from warmside.page.phones.inviting import sitters_rights
from warmside.testing import Keeper

pytestmark = needs_browser()
SCREENS = (
    "",
    "WS.E.LOW",
    "WS.E.HIGH",
    "WS.A.EMB",
    "history",
    "events",
    "report/EMB",
    "find?q=gecko",
    "log/EMB",
    "log/EMB/sign",
    "tell",
    "tell?ask=shed+show&go=1",
    "people",
    "help",
    "steps/LOW",
    "tell?ask=sheet+vet&p.animal=EMB&go=1",
)
SMALL = """
return [...document.querySelectorAll('a,button,input:not([type=hidden]),select,summary')]
  .filter(e => e.type !== 'checkbox' && !e.closest('.skip') && !e.classList.contains('skip'))
  .map(e => [e, e.getBoundingClientRect()])
  .filter(([e, r]) => r.width && (r.width < 43.5 || r.height < 43.5))
  .map(([e, r]) => `${e.tagName} ${r.width}x${r.height} ${e.textContent.slice(0, 30)}`)"""
JUDGE = """
const done = arguments[1];
axe.run({runOnly: arguments[0]})
  .then(r => done(r.violations.map(v => `${v.id}: ${v.nodes[0].html.slice(0, 200)}`)))"""
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
CONTRAST = {"type": "rule", "values": ["color-contrast"]}  # all that differs in the dark
OPENED = "for (const found of document.querySelectorAll('details')) found.open = true"
ASIDE = "return document.documentElement.scrollWidth > innerWidth"


@pytest.fixture(scope="module")
def chromium() -> Iterator[Any]:
    made = driver()
    yield made
    made.quit()


@pytest.fixture
def browser(chromium: Any, page: Page) -> Iterator[Browser]:
    """A phone, not paired yet."""
    with served(page) as url:
        made = Browser(chromium, page, url)
        made.look(PHONE)
        yield made
        made.network(there=True)


def at_the_desk(keeper: Keeper, *words: str) -> Any:
    """What a command answers in a process of its own: the page works in this one."""
    done = keeper.run_apart(*words, "--json")
    assert done.code == 0, done.stderr
    return done.json


def last(keeper: Keeper) -> str:
    return str(at_the_desk(keeper, "history", "--last", "1")["events"][-1]["what"])


def test_every_screen_fits_a_phone_and_a_desk_in_light_and_dark(browser: Browser) -> None:
    browser.pair()
    wrong: dict[str, object] = {}
    for path in SCREENS:
        browser.open(path)
        found: list[object] = list(browser.driver.execute_script(SMALL))
        for size in (PHONE, DESK):
            browser.look(size)
            found += ["sideways"] * bool(browser.driver.execute_script(ASIDE))
        browser.look(PHONE)
        browser.driver.execute_script("document.documentElement.style.fontSize = '200%'")
        found += ["sideways at 200 %"] * bool(browser.driver.execute_script(ASIDE))
        if found:
            wrong[path] = found
    assert wrong == {}
    said = [e["message"] for e in browser.driver.get_log("browser") if e["level"] == "SEVERE"]
    assert said == []


def test_axe_finds_nothing_on_any_screen(browser: Browser) -> None:
    if not AXE:
        pytest.skip("WARMSIDE_AXE names no axe.min.js (npm install axe-core)")
    code = Path(AXE).read_text(encoding="utf-8")
    browser.pair()
    wrong = {}
    for path in SCREENS:
        browser.look(PHONE)
        browser.open(path)
        browser.driver.execute_script(OPENED)
        browser.driver.execute_script(code)
        found = browser.driver.execute_async_script(JUDGE, RULES)
        browser.look(PHONE, dark=True)
        found += browser.driver.execute_async_script(JUDGE, CONTRAST)
        if found:
            wrong[f"/{path}"] = found
    assert wrong == {}


def test_each_task_at_the_rack_takes_its_number_of_taps(browser: Browser, keeper: Keeper) -> None:
    browser.pair()
    for at, steps, taps, said in (
        ("WS.E.LOW", ["refused, Ember"], 1, "fed: rat, 40 g, refused"),
        ("WS.E.LOW", ["taken, Ember"], 1, "fed: rat, 40 g, taken"),
        ("WS.E.HIGH", ["Watered: watered, High shelf"], 1, "watered"),
        ("WS.E.HIGH", ["spot, High shelf"], 1, "cleaned: spot"),
        ("WS.E.LOW", [("Body mass (g), Ember", "1210"), "Save: weigh, Ember"], 2, "1.21 kg"),
        ("WS.E.HIGH", [("Body mass (g), Moss", "61"), "Save: weigh, Moss"], 2, "61 g"),
        ("WS.A.EMB", ["Shed", "one piece, Ember"], 2, "shed: one piece"),
        ("WS.A.EMB", [("What was seen, Ember", "calm"), "Save: observed, Ember"], 2, "calm"),
        ("", ["Done: fresh water, Low shelf"], 1, "watered"),
    ):
        browser.open(at)
        for step in steps:
            if isinstance(step, tuple):
                browser.type(*step)
            else:
                browser.tap(step)
        browser.reads("Recorded: ")
        assert browser.taps == taps
        assert said in last(keeper)
    browser.taps = 0
    browser.tap("Undo")
    browser.reads("Taken back.")
    assert browser.taps == 1
    assert "calm" in last(keeper)


def test_a_doubt_is_asked_and_confirmed_at_the_rack(browser: Browser, keeper: Keeper) -> None:
    browser.pair().open("WS.A.EMB")
    browser.type("Body mass (g), Ember", "12000")
    browser.tap("Save: weigh, Ember")
    browser.reads("10 times the last weight")
    browser.tap("It is right, record it")
    browser.reads("Recorded: ")
    assert "12 kg" in last(keeper)


def test_a_phone_is_paired_by_the_code_on_the_screen_of_another(browser: Browser) -> None:
    import zxingcpp
    from PIL import Image

    browser.pair().open("people")
    browser.type("Whose phone", "Ben")
    browser.tap("Make a code")
    browser.reads("within ten minutes")
    for dark in (False, True):
        browser.look(PHONE, dark=dark)
        (found,) = zxingcpp.read_barcodes(Image.open(io.BytesIO(browser.picture())))
        assert found.text.startswith(f"{browser.url}pair?c=")
    browser.look(PHONE)
    browser.forget()
    browser.driver.get(found.text)
    browser.tap("Pair this phone")
    browser.reads("This phone: Ben")


def test_entries_wait_in_the_open_page_while_the_network_is_away(
    browser: Browser, keeper: Keeper, clock: Clock
) -> None:
    browser.pair().open("WS.E.LOW")
    browser.network(there=False)
    browser.tap("Watered: watered, Low shelf")
    browser.reads("1 entry waits on this phone")
    browser.type("What was seen, Ember", "yawned")
    browser.tap("Save: observed, Ember")
    browser.reads("2 entries wait on this phone")
    browser.type("What was seen, Ember", "went to hide")  # the form is ready for another
    browser.tap("Save: observed, Ember")
    browser.reads("3 entries wait on this phone")
    an_hour = "localStorage.setItem('warmside-waiting', JSON.stringify(JSON.parse("
    an_hour += "localStorage.getItem('warmside-waiting')).map(e => ({...e, at: e.at - 3600000}))))"
    browser.driver.execute_script(an_hour)
    browser.network(there=True)
    browser.driver.execute_script("dispatchEvent(new Event('online'))")
    browser.reads("Recorded: ")
    assert "wait" not in browser.text()
    events = at_the_desk(keeper, "history", "--last", "3")["events"]
    assert sorted(e["kind"] for e in events) == ["observed", "observed", "watered"]
    hour_ago = "2026-03-05T11:00:00Z"  # before noon UTC, and a little while in the test itself
    assert all("2026-03-05T10:50" < e["at"] <= hour_ago for e in events)


def a_doubtful_weighing_waits(browser: Browser) -> None:
    """A slip of ten, saved while the network is away."""
    browser.pair().open("WS.A.EMB")
    browser.network(there=False)
    browser.type("Body mass (g), Ember", "12000")
    browser.tap("Save: weigh, Ember")
    browser.reads("1 entry waits on this phone")


def test_a_doubt_about_an_entry_that_waited_is_asked_and_the_others_wait_for_it(
    browser: Browser, keeper: Keeper
) -> None:
    a_doubtful_weighing_waits(browser)
    browser.tap("Watered: watered, Low shelf")
    browser.reads("2 entries wait on this phone")
    browser.network(there=True)
    browser.driver.execute_script("dispatchEvent(new Event('online'))")
    browser.reads("10 times the last weight")
    browser.driver.execute_script("dispatchEvent(new Event('online'))")
    browser.tap("It is right, record it")
    browser.reads("Recorded: ")  # the doubtful one; the other follows from the page that comes
    kinds = lambda: {e["kind"] for e in at_the_desk(keeper, "history", "--last", "2")["events"]}  # noqa: E731
    browser.until(lambda: kinds() == {"weighed", "watered"}, "not both are recorded")


def test_a_doubt_about_an_entry_that_waited_is_asked_again_after_the_page_was_closed(
    browser: Browser, keeper: Keeper
) -> None:
    """It waits until it is answered; given up, it is gone, and the others go their way."""
    a_doubtful_weighing_waits(browser)
    browser.tap("Watered: watered, Low shelf")
    browser.reads("2 entries wait on this phone")
    browser.network(there=True)
    for _ in range(2):  # the page is opened anew, its question unanswered
        browser.open("history")
        browser.reads("10 times the last weight")
        browser.reads("until you answer")
    browser.tap("No, go back")
    browser.reads("Recorded: ")
    browser.until(lambda: "waits" not in browser.text(), "something waits still")
    events = at_the_desk(keeper, "history", "--last", "3")["events"]
    assert [e["kind"] for e in events if e["day"] == "2026-03-05"] == ["watered"]


def test_a_doubt_about_an_entry_that_waited_is_answered_where_the_network_went_again(
    browser: Browser, keeper: Keeper
) -> None:
    a_doubtful_weighing_waits(browser)
    browser.network(there=True)
    browser.open("history")
    browser.reads("10 times the last weight")
    browser.network(there=False)
    browser.tap("It is right, record it")
    browser.until(lambda: "confirm" in waits(browser), "the answer does not wait")
    browser.network(there=True)
    browser.open("history")
    browser.reads("Recorded: ")
    assert waits(browser) in ("", "[]")
    events = at_the_desk(keeper, "history", "--last", "3")["events"]
    assert [e["kind"] for e in events if e["day"] == "2026-03-05"] == ["weighed"]


def waits(browser: Browser) -> str:
    """What the phone keeps to be sent."""
    script = "return localStorage.getItem('warmside-waiting') || ''"
    return str(browser.driver.execute_script(script))


def test_what_is_being_typed_stays_when_waiting_entries_are_sent(browser: Browser) -> None:
    browser.pair().open("WS.E.LOW")
    browser.network(there=False)
    browser.tap("Watered: watered, Low shelf")
    browser.reads("1 entry waits on this phone")
    browser.type("What was seen, Ember", "half a wo")
    browser.network(there=True)
    browser.driver.execute_script("dispatchEvent(new Event('online'))")
    browser.until(lambda: "entry waits" not in browser.text())
    value = "return document.querySelector('input[name=\"f.what\"]').value"
    assert browser.driver.execute_script(value) == "half a wo"


def test_all_works_without_a_script(browser: Browser, keeper: Keeper) -> None:
    browser.pair()
    browser.cdp("Emulation.setScriptExecutionDisabled", value=True)
    try:
        browser.open("WS.E.LOW")
        from selenium.webdriver.common.by import By

        found = "button[aria-label='Watered: watered, Low shelf']"
        browser.driver.find_element(By.CSS_SELECTOR, found).send_keys("\n")
        shown = lambda: browser.driver.find_element(By.CSS_SELECTOR, ".banner").text  # noqa: E731
        browser.until(lambda: "Recorded: " in shown())
    finally:
        browser.cdp("Emulation.setScriptExecutionDisabled", value=False)
    assert last(keeper) == "watered"


def test_a_keyboard_is_enough(browser: Browser, keeper: Keeper) -> None:
    from selenium.webdriver.common.action_chains import ActionChains
    from selenium.webdriver.common.keys import Keys

    browser.pair().open("WS.E.LOW")
    focused = (
        "return (document.activeElement.ariaLabel || document.activeElement.textContent).trim()"
    )
    for _ in range(60):
        ActionChains(browser.driver).send_keys(Keys.TAB).perform()
        if browser.driver.execute_script(focused) == "Watered: watered, Low shelf":
            outline = "return getComputedStyle(document.activeElement).outlineStyle"
            assert browser.driver.execute_script(outline) == "solid"
            ActionChains(browser.driver).send_keys(Keys.ENTER).perform()
            break
    browser.reads("Recorded: ")
    assert last(keeper) == "watered"


def test_a_sitter_is_shut_out_when_the_last_day_is_over(
    browser: Browser, keeper: Keeper, clock: Clock
) -> None:
    with keeper.book() as book:
        rights = sitters_rights(book, "2026-03-05", ("LOW",), (), "Ann 0000")
    browser.pair(rights, "Ada")
    browser.reads("Ann 0000")
    browser.open("WS.E.LOW")
    clock.pass_time(hours=12)
    browser.tap("Watered: watered, Low shelf")
    browser.reads("This phone is not paired")
    assert (
        last(keeper) != "watered" or at_the_desk(keeper, "undo", "--list")["steps"][0]["by"] is None
    )


def test_two_phones_and_the_desk_at_once_lose_and_double_nothing(
    browser: Browser, page: Page, keeper: Keeper
) -> None:
    from page.phones import Phone

    before = len(at_the_desk(keeper, "history", "--last", "999")["events"])
    browser.pair().open("WS.E.LOW")
    page.hosts |= {"rack.test:8420"}
    other = Phone(page).pair(name="Ben")
    browser.tap("Watered: watered, Low shelf")
    other.fill("/WS.E.HIGH", 'value="watered"')
    at_the_desk(keeper, "record", "observed", "EMB", "--what", "calm")
    browser.reads("Recorded: ")
    events = at_the_desk(keeper, "history", "--last", "999")["events"]
    assert len(events) == before + 3
