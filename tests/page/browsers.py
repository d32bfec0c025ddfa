"""A real browser on a page that is served in this process, so that tests can turn its clock."""

from __future__ import annotations

import base64
import os
import shutil
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from warmside.page.app import Page
from warmside.page.phones.people import Rights
from warmside.page.serving import hosts_of, server_of

NEEDED = "WARMSIDE_BROWSER"  # set where these tests must run
AXE = os.environ.get("WARMSIDE_AXE", "")
PHONE, DESK = (390, 844), (1280, 800)
SOON = 30.0  # a busy machine is no failure


def missing() -> str:
    """Why no browser can be driven here; nothing where one can."""
    programs = [p for p in ("chromium", "chromedriver") if shutil.which(p) is None]
    try:
        import selenium  # noqa: F401
    except ImportError:
        programs.append("selenium (of Python)")
    return f"not installed: {', '.join(programs)}" if programs else ""


def needs_browser() -> pytest.MarkDecorator:
    """Skip, and say why, where there is no browser; fail instead where it must be there."""
    reason = missing()
    assert not (reason and os.environ.get(NEEDED)), f"{NEEDED} is set, but {reason}"
    return pytest.mark.skipif(bool(reason), reason=f"tests in a browser are skipped: {reason}")


def driver() -> Any:
    """A Chromium without a window, as wide as a phone."""
    from selenium import webdriver
    from selenium.webdriver.chrome.service import Service

    options = webdriver.ChromeOptions()
    options.binary_location = str(shutil.which("chromium"))
    for argument in (
        "--headless=new",
        "--no-sandbox",
        "--disable-dev-shm-usage",
        "--disable-gpu",
        "--hide-scrollbars",
        "--no-first-run",
        "--disable-background-networking",
    ):
        options.add_argument(argument)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL"})
    made = webdriver.Chrome(options=options, service=Service(str(shutil.which("chromedriver"))))
    made.set_page_load_timeout(60)  # a browser that waits for ever would stop all tests
    made.set_script_timeout(60)
    return made


@contextmanager
def served(page: Page) -> Iterator[str]:
    """The address at which the page answers while the context lasts."""
    from waitress import wasyncore

    server = server_of(page, "127.0.0.1", 0)
    page.hosts = frozenset(hosts_of("127.0.0.1", server.effective_port))
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.effective_port}/"
    finally:
        server.trigger.pull_trigger(lambda: wasyncore.close_all(server._map))
        server.task_dispatcher.shutdown()
        thread.join(5)


class Browser:
    """What a person does and sees; taps are counted."""

    def __init__(self, driver: Any, page: Page, url: str) -> None:
        self.driver = driver
        self.page = page
        self.url = url
        self.taps = 0

    def look(self, size: tuple[int, int], *, dark: bool = False) -> None:
        """Be of a size in points, and light or dark."""
        width, height = size
        metrics = {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 500}
        self.cdp("Emulation.setDeviceMetricsOverride", **metrics)
        scheme = {"name": "prefers-color-scheme", "value": "dark" if dark else "light"}
        self.cdp("Emulation.setEmulatedMedia", features=[scheme])

    def cdp(self, command: str, **given: Any) -> Any:
        """A command of the browser's own protocol."""
        return self.driver.execute_cdp_cmd(command, given)

    def forget(self) -> None:
        """Be a browser that has never been here."""
        self.cdp("Network.clearBrowserCookies")
        self.driver.get(f"{self.url}style.css")
        self.driver.execute_script(
            "localStorage.clear(); indexedDB.deleteDatabase('warmside-pictures')"
        )

    def pair(self, rights: Rights | None = None, name: str = "Ann") -> Browser:
        """Be somebody's phone."""
        self.forget()
        code = self.page.devices.invite(name, rights or Rights(), self.page.now()).code
        self.open(f"pair?c={code}")
        self.tap("Pair this phone")
        self.until(lambda: self.driver.current_url == self.url)
        self.taps = 0
        return self

    def open(self, path: str) -> None:
        """Go to an address of the page, as a scanned label or a link does."""
        self.driver.get(f"{self.url}{path.lstrip('/')}")
        self.taps = 0

    def control(self, name: str) -> Any:
        """What is to be seen and tapped under a name, as it is read out."""
        script = """
        const seen = [...document.querySelectorAll('button,a,summary,input')].filter(
          e => e.getClientRects().length && (e.ariaLabel || e.textContent ||
            (e.labels && e.labels.length ? e.labels[0].textContent : '')).trim() === arguments[0]);
        return seen[0] || null;"""
        return self.until(lambda: self.driver.execute_script(script, name), f"no {name!r}")

    def tap(self, name: str) -> None:
        """Tap on what has that name."""
        found = self.control(name)
        self.driver.execute_script("arguments[0].scrollIntoView({block: 'center'})", found)
        found.click()
        self.taps += 1

    def type(self, name: str, text: str) -> None:
        """Tap on a field and type into it."""
        found = self.control(name)
        self.driver.execute_script("arguments[0].scrollIntoView({block: 'center'})", found)
        found.click()
        found.send_keys(text)
        self.taps += 1

    def text(self) -> str:
        """All that can be read."""
        return str(
            self.driver.execute_script("return document.body ? document.body.innerText : ''")
        )

    def until(self, true: Callable[[], Any], otherwise: str = "") -> Any:
        """What is true in the end; fails where it never is."""
        from selenium.common.exceptions import WebDriverException

        end = time.monotonic() + SOON
        while time.monotonic() < end:
            try:
                if found := true():
                    return found
            except WebDriverException:  # the page is being loaded
                pass
            threading.Event().wait(0.05)
        raise AssertionError(f"{otherwise} within {SOON} s; there is:\n{self.text()[:900]}")

    def reads(self, words: str) -> None:
        """Wait until the words are to be read."""
        self.until(lambda: words in self.text(), f"no {words!r}")

    def picture(self, path: Path | None = None, height: int = 3000) -> bytes:
        """What is to be seen, from the top to the bottom, or to a height."""
        width = self.driver.execute_script("return innerWidth")
        whole = self.driver.execute_script("return document.documentElement.scrollHeight")
        height = min(height, whole)
        clip = {"x": 0, "y": 0, "width": width, "height": height, "scale": 1}
        shot = self.cdp("Page.captureScreenshot", captureBeyondViewport=True, clip=clip)
        data = base64.b64decode(shot["data"])
        if path is not None:
            path.write_bytes(data)
        return data

    def network(self, there: bool) -> None:
        """Be within reach of the home network, or out of it."""
        self.cdp("Network.enable")
        rates = {"latency": 0, "downloadThroughput": -1, "uploadThroughput": -1}
        self.cdp("Network.emulateNetworkConditions", offline=not there, **rates)
