"""What a face that runs for long can rely on: every request stands alone, and nothing is lost."""

from __future__ import annotations

import gc
import shutil
import sqlite3
import sys
import threading
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from datetime import UTC, date, datetime, timedelta
from itertools import count
from pathlib import Path
from typing import Any

import pytest
import typer
from msgspec.structs import replace

from warmside.api import (
    Ask,
    Book,
    Command,
    Doubtful,
    Event,
    NewEvent,
    NotFound,
    said,
)
from warmside.cli.opening import open_collection
from warmside.cli.plugin_choice import PluginChoice
from warmside.core.file import sqlite
from warmside.core.plugins.hook_values import Task
from warmside.core.session.live import Live, live_of
from warmside.core.session.session import Session
from warmside.core.values.about import About
from warmside.core.values.basis import Basis, Mark, Source
from warmside.testing import Keeper, copy_of, new_keeper, throw_away_plugin

DAY = date(2026, 3, 5)
RULE = Basis("invented", Source("invented", Mark.COMMON_PRACTICE))


def opened(path: Path, now: datetime) -> Any:
    return open_collection(path, now, PluginChoice())


@pytest.fixture(scope="module")
def ember_once(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """What `ember` copies, made once."""
    keeper = new_keeper(tmp_path_factory.mktemp("ember"))
    keeper.run("enclosure", "add", "Shelf")
    keeper.run("animal", "add", "Ember", "--species", "ball python", "--enclosure", "SHE")
    return keeper


@pytest.fixture
def ember(ember_once: Keeper, tmp_path: Path) -> Keeper:
    """A keeper with an animal in an enclosure."""
    return copy_of(ember_once, tmp_path)


@pytest.fixture
def live(ember: Keeper) -> Live:
    """The keeper's collection behind a face; its clock is the keeper's."""
    return Live(ember.path, opened, lambda: ember.now)


def look(what: str) -> NewEvent:
    return NewEvent("observed", DAY, {"what": what}, 1)


def post(session: Session, what: str) -> None:
    """What a form of a page does."""
    with session.step(f"saw {what}") as writer:
        writer.record(look(what))


def seen(keeper: Keeper) -> list[str]:
    with keeper.book() as book:
        return [e.data["what"] for e in book.events("observed")]


def echo(events: tuple[Event, ...]) -> Iterator[NewEvent]:
    """A plugin that adds an event to each, within the step."""
    for event in events:
        if event.kind == "observed":
            yield replace(look(f"{event.data['what']} echoed"), animal_id=event.animal_id)


def failing(on: date) -> Iterator[Task]:
    """A plugin that cannot say what is due."""
    raise ValueError("no idea")


def test_posts_of_four_threads_are_all_there_once_and_failures_stay_with_their_request(
    ember: Keeper, live: Live
) -> None:
    over = threading.Event()

    def posting(name: str) -> list[str]:
        told = []
        for n in range(15):
            session = live.session()
            post(session, f"{name}{n}")
            told += [str(f) for f in session.open().host.failures] + session.open().notices
        return told

    def reading() -> list[int]:
        counted: list[int] = []
        while not over.is_set() or not counted:
            session = live.session()
            with session.ask() as ask:
                assert ask.tasks(DAY) == []
            counted.append(len(session.open().host.failures))
        return counted

    with (
        throw_away_plugin("echo", warmside_events_recorded=echo),
        throw_away_plugin("sulk", warmside_tasks=failing),
        ThreadPoolExecutor(6) as pool,
    ):
        ember.run("plugin", "enable", "echo")
        ember.run("plugin", "enable", "sulk")
        readers = [pool.submit(reading) for _ in range(2)]
        writers = [pool.submit(posting, name) for name in "abcd"]
        try:
            told = [text for writer in writers for text in writer.result()]
        finally:
            over.set()
        assert told == [], "a request hears of another's failure"
        assert {n for reader in readers for n in reader.result()} == {1}
        typed = [f"{name}{n}" for name in "abcd" for n in range(15)]
        assert sorted(seen(ember)) == sorted([*typed, *(f"{t} echoed" for t in typed)])
        with ember.book() as book:
            steps = [e.step_id for e in book.events("observed")]
        assert len(set(steps)) == len(typed), "steps of two threads ran into one another"
    assert ember.run("--no-plugins", "file", "check").code == 0


def test_threads_that_write_wait_for_each_other_without_trying_again_and_again(
    ember: Keeper, live: Live, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sqlite.open_engine, "__defaults__", (0.0,))  # SQLite does not wait at all
    sessions = [live.session() for _ in range(4)]
    for session in sessions:
        session.open()  # which reads: a reader may keep a writer waiting for a moment

    def posting(session: Session) -> None:
        for _ in range(10):
            post(session, "calm")

    with ThreadPoolExecutor(4) as pool:
        list(pool.map(posting, sessions))
    assert len(seen(ember)) == 40


def test_what_another_thread_asks_at_the_same_time_is_no_circle(ember: Keeper, live: Live) -> None:
    together = threading.Barrier(2, timeout=10)

    def waiting(on: date) -> Iterator[Task]:
        together.wait()
        yield Task("look", on, RULE, About(animal_id=1))

    def asking() -> tuple[int, list[str]]:
        session = live.session()
        with session.ask() as ask:
            return len(ask.tasks(DAY)), [str(f) for f in session.open().host.failures]

    with throw_away_plugin("slow", warmside_tasks=waiting), ThreadPoolExecutor(2) as pool:
        ember.run("plugin", "enable", "slow")
        live.session().open()  # so that neither has to load the plugins
        both = [pool.submit(asking) for _ in range(2)]
        assert [b.result() for b in both] == [(1, []), (1, [])]


def test_a_plugin_that_is_switched_at_the_desk_is_seen_by_the_next_request(
    ember: Keeper, live: Live
) -> None:
    def due(on: date) -> Iterator[Task]:
        yield Task("mist", on, RULE, About(animal_id=1))

    def tasks() -> list[str]:
        with live.session().ask() as ask:
            return [task.what for _, task in ask.tasks(DAY)]

    with throw_away_plugin("mist", warmside_tasks=due):
        assert tasks() == []
        ember.run("plugin", "enable", "mist")
        assert tasks() == ["mist"]
        ember.run("plugin", "disable", "mist")
        assert tasks() == []


def test_plugins_are_loaded_once_while_the_file_names_the_same(ember: Keeper) -> None:
    times = []

    def counted(path: Path, now: datetime) -> Any:
        times.append(now)
        return opened(path, now)

    live = Live(ember.path, counted, lambda: ember.now)
    for n in range(3):
        post(live.session(), str(n))
    assert len(times) == 1


@pytest.mark.parametrize("how", ["restored", "replaced", "made anew"])
def test_another_file_in_the_place_is_seen_by_the_next_request(
    ember: Keeper, live: Live, how: str, tmp_path: Path
) -> None:
    ember.run("file", "backup", str(tmp_path / "early.warmside"))
    post(live.session(), "late")
    if how == "restored":
        ember.run("file", "restore", str(tmp_path / "early.warmside"), "--yes")
    elif how == "replaced":
        shutil.copy(tmp_path / "early.warmside", tmp_path / "coming")
        (tmp_path / "coming").replace(ember.path)
    else:
        ember.path.unlink()
        with pytest.raises(NotFound, match="warmside file restore"):
            live.session().open()
        (tmp_path / "early.warmside").rename(ember.path)
    post(live.session(), "after")
    with live.session().read() as book:
        assert [e.data["what"] for e in book.events("observed")] == ["after"]
    assert seen(ember) == ["after"]


def test_a_file_of_a_newer_version_is_refused_from_then_on(ember: Keeper, live: Live) -> None:
    post(live.session(), "calm")
    with closing(sqlite3.connect(ember.path)) as connection, connection:
        connection.execute("UPDATE schema_version_core SET version_num = 'c9999'")
    for _ in range(2):
        with pytest.raises(Exception, match="newer version"):
            live.session().open()


def test_the_clock_crosses_midnight_between_two_requests(ember: Keeper, live: Live) -> None:
    ember.now = datetime(2026, 3, 5, 22, 59, 59, tzinfo=UTC)  # a second before, in Vienna
    before = live.session()
    ember.now += timedelta(seconds=2)
    days = []
    for session in (before, live.session()):
        with session.read() as book:
            days.append(book.today)
    assert days == [DAY, DAY + timedelta(days=1)]
    post(live.session(), "calm")
    with live.session().read() as book:
        assert book.steps(1)[0].at == ember.now


def test_a_request_may_confirm_what_another_only_doubted(live: Live) -> None:
    tomorrow = replace(look("calm"), day=DAY + timedelta(days=1))
    with pytest.raises(Doubtful) as doubted, live.session().step("saw") as writer:
        writer.record(tomorrow)
    assert "--confirm" not in str(doubted.value), "a page has a button for that"
    assert len(doubted.value.doubts) == 1 and doubted.value.doubts[0] in str(doubted.value)
    with live.session().step("saw", confirmed=True) as writer:
        writer.record(tomorrow)
    with live.session().read() as book:
        assert [e.day for e in book.events("observed")] == [tomorrow.day]


def served(live: Live, times: int) -> int:
    """Blocks of memory in use after so many requests; some write, and plugins fail in all."""
    for n in range(times):
        session = live.session()
        if n % 50 == 0:
            post(session, "calm")
        with session.ask() as ask:
            ask.round(DAY)
            ask.findings(DAY)
    gc.collect()
    return sys.getallocatedblocks()


def test_memory_stays_flat_over_a_thousand_requests(ember: Keeper, live: Live) -> None:
    times = count()

    def findings(book: Book, ask: Ask) -> Iterator[Any]:
        raise ValueError(f"another text each time: {next(times)}")

    with throw_away_plugin("sulk", warmside_tasks=failing, warmside_findings=findings):
        ember.run("plugin", "enable", "sulk")
        early = served(live, 300)
        late = served(live, 1000)
    assert late - early < 500, f"{(late - early) / 1000:.1f} blocks of memory a request are lost"


def test_garbage_is_collected_where_a_face_runs_for_long(ember: Keeper) -> None:
    gc.disable()
    try:
        Live(ember.path, opened, lambda: ember.now)
        assert gc.isenabled()
    finally:
        gc.enable()


def serve(context: typer.Context) -> Any:
    """Serve one request, with what the command line was told."""
    session = live_of(context).session()
    with session.ask() as ask:
        tasks = [task.what for _, task in ask.tasks(session.day(None, ask.book))]
    return said(f"{session.now:%H:%M} {tasks}")


def test_a_command_gets_the_live_collection_with_its_own_choice_of_plugins(ember: Keeper) -> None:
    def due(on: date) -> Iterator[Task]:
        yield Task("mist", on, RULE, About(animal_id=1))

    with (
        throw_away_plugin("mist", warmside_tasks=due),
        throw_away_plugin(
            "face", manifest={"commands": (Command("serve", "Serve.", f"{__name__}:app"),)}
        ),
    ):
        ember.run("plugin", "enable", "mist")
        ember.run("plugin", "enable", "face")
        assert "12:00 ['mist']" in ember.run("serve").stdout
        assert "12:00 []" in ember.run("--without", "mist", "serve").stdout


app = typer.Typer()
app.command("")(serve)
