"""The page beside the same requests as calls of the library, in one run.

Limits: a screen that is kept at most 5 ms; a post at most 3 times the recording itself, which is
the floor; four phones that post each second beside the command line, on a file of 12 animals and
30,000 events: no error, no event lost or doubled, 95 % within 250 ms; memory flat over 2,000
requests (2 MB at most), after as many that fill what is kept: until about the
1,000th it gains some 6 to 9 MB: the heap of each of six threads that made a screen (with one thread
half of it), and bounded caches that fill (4,096 parsed events), then nothing over the next 4,000.
"""

from __future__ import annotations

import itertools
import statistics
import subprocess
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.bench.generated import generated
from tests.bench.measured import hold, hold_ratio, medians

from page.served_apart import Served
from warmside.cli.opening import open_collection
from warmside.cli.page_commands import PageCommands
from warmside.cli.plugin_choice import PluginChoice
from warmside.core.doing.recording import Recording, record
from warmside.core.session.live import Live
from warmside.page.app import Page
from warmside.page.phones.devices import Devices
from warmside.testing import Keeper

SECONDS = 60.0
PHONES = 4
REQUESTS = 2000  # twice: the first fill what is kept


@pytest.fixture(scope="module")
def keeper(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """Twelve animals, ten years, 30,000 events, with tasks."""
    made = generated(tmp_path_factory.mktemp("page"), animals=12, years=10, events=30_000)
    for words in (
        ("plugin", "enable", "rhythm"),
        ("plugin", "enable", "feeding"),
        ("plugin", "enable", "shed"),
        ("rhythm", "set", "watered", "--every", "2"),
    ):
        made.run(*words)
    return made


@pytest.fixture(scope="module")
def codes(keeper: Keeper) -> list[str]:
    return [e["code"] for e in keeper.json("enclosure", "list")["enclosures"]]


@pytest.fixture(scope="module")
def page(keeper: Keeper) -> Page:
    choice = PluginChoice()
    live = Live(keeper.path, lambda p, now: open_collection(p, now, choice), lambda: keeper.now)
    devices = Devices(keeper.path.parent / "phones")
    return Page(live, devices, PageCommands(keeper.path), ["rack.test:8420"])


def phone(page: Page) -> Any:
    from page.phones import Phone

    return Phone(page).pair()


def test_a_screen_that_is_kept(page: Page, codes: list[str]) -> None:
    one = phone(page)
    path = f"/WS.E.{codes[0]}"
    assert one.get(path).status_code == 200
    (seconds,) = medians(lambda: one.get(path), runs=200)
    hold("a kept enclosure page, in ms", 1000 * seconds, 5.0)
    page.cache = type(page.cache)(page.live.path)
    times = []
    for code in codes[:9]:
        start = time.perf_counter()
        one.get(f"/WS.E.{code}")
        times.append(time.perf_counter() - start)
    hold("an enclosure page made anew, in ms", 1000 * statistics.median(times), 1000.0)


def test_a_post_beside_the_recording_itself(page: Page, codes: list[str]) -> None:
    one = phone(page)
    token = {"token": one.form(f"/WS.E.{codes[0]}", 'value="watered"')["token"]}
    number = itertools.count()

    def posted() -> None:
        ref = {"ref": f"bench{next(number)}"}
        sent = {"kind": "watered", "subject": codes[0]}
        assert one.send("/record", token | ref | sent).status_code == 303

    def recorded() -> None:
        record(page.live.session(), Recording("watered", (codes[0],)))

    hold_ratio("a post to the recording itself", posted, recorded, 3.0, 41)


@pytest.fixture
def served(keeper: Keeper) -> Iterator[Served]:
    made = Served(keeper.start("page", "--port", "0"))
    made.pair(made.code)
    yield made
    made.process.kill()
    made.process.communicate()


def test_four_phones_and_the_command_line_for_a_minute(
    served: Served, keeper: Keeper, codes: list[str]
) -> None:
    token = served.token_at(f"/WS.E.{codes[0]}")
    times: list[float] = []
    wrong: list[object] = []
    sent: list[str] = []
    end = time.monotonic() + SECONDS

    def use(number: int) -> None:
        for n in itertools.count():
            if time.monotonic() >= end:
                return
            note = f"phone {number} entry {n}"
            form = {"token": token, "kind": "watered", "subject": codes[number], "note": note}
            start = time.perf_counter()
            status = served.ask("/record", form | {"ref": f"{number}.{n}"}).status
            times.append(time.perf_counter() - start)
            sent.append(note)
            if status != 303:
                wrong.append(status)
            time.sleep(max(0.0, 1 - (time.perf_counter() - start)))

    threads = [threading.Thread(target=use, args=(n,)) for n in range(PHONES)]
    for thread in threads:
        thread.start()
    while time.monotonic() < end:
        process: subprocess.Popen[str] = keeper.start("record", "watered", codes[5])
        _, said = process.communicate()
        if process.returncode:
            wrong.append(said)
        time.sleep(1)
    for thread in threads:
        thread.join()
    assert wrong == []
    with keeper.book() as book:
        notes = [e.note for e in book.events("watered") if e.note.startswith("phone ")]
    assert sorted(notes) == sorted(sent)
    ordered = sorted(times)
    late = 1000 * ordered[int(0.95 * len(ordered))]
    words = f"{len(sent)} posts, middle {1000 * statistics.median(ordered):.0f} ms"
    hold("four phones for a minute, 95 % within ms", late, 250.0, words)


def resident(pid: int) -> float:
    """Memory of a program in MB, where the system tells it."""
    status = Path(f"/proc/{pid}/status").read_text(encoding="ascii")
    (line,) = [line for line in status.splitlines() if line.startswith("VmRSS")]
    return int(line.split()[1]) / 1024


@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="needs /proc")
def test_memory_stays_flat(served: Served, codes: list[str]) -> None:
    token = served.token_at(f"/WS.E.{codes[0]}")
    early = 0.0
    for n in range(2 * REQUESTS):
        if n % 50 == 0:
            form = {"token": token, "kind": "watered", "subject": codes[0], "ref": f"memory {n}"}
            assert served.ask("/record", form).status == 303
        else:
            assert served.ask(f"/WS.E.{codes[n % 3]}").status == 200
        if n == REQUESTS:
            early = resident(served.process.pid)
    late = resident(served.process.pid)
    hold("memory gained over 2,000 requests, in MB", late - early, 2.0, f"{late:.0f} MB at the end")
