"""What goes wrong beside the page: it says so, goes on, and loses nothing that it acknowledged."""

from __future__ import annotations

import os
import shutil
import sqlite3
import threading
from collections.abc import Iterator
from contextlib import closing, contextmanager
from http.client import HTTPException
from typing import Any

import pytest
from sqlalchemy import Engine, event

from page.phones import Clock, Phone, form_in
from page.served_apart import Served
from warmside.core.file.sqlite import open_engine
from warmside.page.app import Page
from warmside.testing import Keeper, throw_away_plugin

WATERED = 'value="watered"'
OUTSIDE = """
import sys
from warmside.cli.entry import main
for n in range(int(sys.argv[1])):
    while code := main(["record", "observed", "EMB", "--what", f"outside {n}"]):
        assert code == 75  # busy: try again
"""


def count(keeper: Keeper, kind: str) -> int:
    with closing(sqlite3.connect(keeper.path)) as connection:
        query = "SELECT count(*) FROM event WHERE kind = ?"
        (found,) = connection.execute(query, (kind,)).fetchone()
    return int(found)


def is_sound(keeper: Keeper) -> bool:
    with closing(sqlite3.connect(keeper.path)) as connection:
        return connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]


def test_a_file_that_is_gone_or_damaged_is_told_and_the_page_goes_on_when_it_is_back(
    phone: Phone, keeper: Keeper
) -> None:
    form = phone.form("/WS.E.LOW", WATERED)
    action = form.pop("")
    aside = keeper.path.with_suffix(".aside")
    keeper.path.rename(aside)
    for answer in (phone.get("/"), phone.send(action, form)):
        assert answer.status_code in (404, 503) and "did not work" in answer.text
        assert "fault in Warmside" not in answer.text
    keeper.path.write_bytes(b"no collection at all" * 300)
    for answer in (phone.get("/WS.E.LOW"), phone.send(action, form)):
        assert answer.status_code == 503 and "did not work" in answer.text
    aside.replace(keeper.path)
    assert phone.get("/").status_code == 200
    assert phone.send(action, form).status_code == 303


def test_a_restored_file_is_seen_by_the_next_request(phone: Phone, keeper: Keeper) -> None:
    keeper.run("file", "backup", str(keeper.path.parent / "copy.warmside"))
    phone.fill("/WS.E.LOW", WATERED)
    assert phone.get("/").text.count("fresh water, ") == 1
    keeper.run("file", "restore", str(keeper.path.parent / "copy.warmside"), "--yes")
    assert phone.get("/").text.count("fresh water, ") == 2
    shutil.copy(keeper.path.parent / "copy.warmside", keeper.path.with_suffix(".new"))
    keeper.path.with_suffix(".new").replace(keeper.path)  # as a sync would
    assert phone.fill("/", "fresh water, Low shelf").status_code == 303
    assert phone.get("/").text.count("fresh water, ") == 1


@pytest.fixture
def impatient(monkeypatch: pytest.MonkeyPatch) -> None:
    """Who writes waits a fifth of a second for others, not five."""
    monkeypatch.setattr(open_engine, "__defaults__", (0.2,))


@pytest.mark.usefixtures("impatient")
def test_a_file_that_another_program_holds_is_busy_and_the_same_post_comes_through_later(
    phone: Phone, keeper: Keeper
) -> None:
    form = phone.form("/WS.E.LOW", WATERED)
    action = form.pop("")
    before = count(keeper, "watered")
    with closing(sqlite3.connect(keeper.path)) as other:
        other.execute("BEGIN IMMEDIATE")
        answer = phone.send(action, form)
        assert answer.status_code == 503 and "Nothing was written" in answer.text
        assert f"“{keeper.path.name}” is in use" in answer.text
        assert str(keeper.path.parent) not in answer.text
        assert phone.get("/").status_code == 200  # looking goes on
        other.execute("ROLLBACK")
    assert phone.send(action, form).status_code == 303
    assert count(keeper, "watered") == before + 1


@contextmanager
def no_room(keeper: Keeper) -> Iterator[None]:
    """Every new connection of the program is told that the file may not grow by a page."""
    with closing(sqlite3.connect(keeper.path)) as connection:
        connection.execute("VACUUM")
        pages = connection.execute("PRAGMA page_count").fetchone()[0]

    def limit(connection: Any, _record: Any) -> None:
        connection.execute(f"PRAGMA max_page_count = {pages}")

    event.listen(Engine, "connect", limit)
    try:
        yield
    finally:
        event.remove(Engine, "connect", limit)


def test_a_full_disk_is_told_and_nothing_is_half_written(phone: Phone, keeper: Keeper) -> None:
    form = phone.form("/log/EMB/observed", 'value="observed"')
    action = form.pop("")
    long = form | {"f.what": "calm", "note": "a long note " * 500}
    before = keeper.json("undo", "--list")
    with no_room(keeper):
        answer = phone.send(action, long)
        assert answer.status_code == 503 and "make room" in answer.text
        assert phone.get("/history").status_code == 200
    assert keeper.json("undo", "--list") == before


def test_a_clock_that_is_set_back_loses_nothing(phone: Phone, keeper: Keeper, clock: Clock) -> None:
    clock.pass_time(days=-2)
    assert "The round of 2026-03-03" in phone.get("/").text
    assert phone.fill("/WS.E.LOW", WATERED).status_code == 303
    clock.pass_time(days=2)
    assert "The round of 2026-03-05" in phone.get("/").text
    assert keeper.run("file", "check").code == 0


def test_a_plugin_that_fails_costs_only_itself(phone: Phone, keeper: Keeper) -> None:
    def fails() -> None:
        raise RuntimeError("an invented failure")

    with throw_away_plugin("breaking", warmside_tasks=fails):
        keeper.run("plugin", "enable", "breaking")
        for path in ("/", "/WS.E.LOW"):
            text = phone.get(path).text
            assert "fresh water" in text and "weigh" in text
            assert "an invented failure" in text and "the rest went on" in text
        assert phone.fill("/WS.E.LOW", WATERED).status_code == 303


def test_phones_and_other_programs_write_at_once_without_loss_or_damage(
    page: Page, keeper: Keeper
) -> None:
    before = count(keeper, "observed"), count(keeper, "watered")
    others = [keeper.start("4", program=("-c", OUTSIDE)) for _ in range(2)]
    told: list[int] = []

    def use(phone: Phone) -> None:
        for _ in range(6):
            while (shown := phone.get("/WS.E.LOW")).status_code == 503:
                pass  # another program has held the file for long
            form = form_in(shown.text, WATERED)
            action = form.pop("")
            while (status := phone.send(action, form).status_code) == 503:
                pass  # busy: the phone sends the same again
            told.append(status)
            phone.get("/")

    threads = [
        threading.Thread(target=use, args=(Phone(page).pair(name=f"Ann {n}"),)) for n in range(3)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert [(p.communicate()[1], p.returncode)[1] for p in others] == [0, 0]
    assert told == [303] * 18
    assert is_sound(keeper)
    after = count(keeper, "observed"), count(keeper, "watered")
    assert after == (before[0] + 8, before[1] + 18)


@pytest.mark.skipif(os.name != "posix", reason="needs SIGKILL")
def test_after_kill_9_all_that_was_acknowledged_is_there_and_what_was_not_is_sent_once(
    keeper: Keeper,
) -> None:
    first = Served(keeper.start("page", "--port", "0"))
    first.pair(first.code)
    token = first.token()
    sent: dict[int, list[dict[str, str]]] = {phone: [] for phone in range(4)}
    acknowledged: list[str] = []

    def post(phone: int) -> None:
        for n in range(200):
            note = f"n{phone}.{n}"
            form = {"token": token, "kind": "watered", "subject": "LOW", "ref": note, "note": note}
            sent[phone].append(form)
            try:
                while first.ask("/record", form).status == 503:
                    pass  # busy: the phone sends the same again
            except (OSError, HTTPException):
                return
            acknowledged.append(note)

    phones = [threading.Thread(target=post, args=(phone,)) for phone in sent]
    for thread in phones:
        thread.start()
    while len(acknowledged) < 24:
        threading.Event().wait(0.01)
    first.process.kill()
    for thread in phones:
        thread.join()
    first.process.communicate()
    second = Served(keeper.start("page", "--port", "0"))
    second.cookie = first.cookie  # the phone is paired still
    for form in (form for forms in sent.values() for form in forms[-3:]):
        assert second.ask("/record", form).status == 303
    second.process.kill()
    second.process.communicate()
    with closing(sqlite3.connect(keeper.path)) as connection:
        notes = [n for (n,) in connection.execute("SELECT note FROM event WHERE note LIKE 'n%'")]
    assert is_sound(keeper)
    wanted = [form["note"] for forms in sent.values() for form in forms]
    assert sorted(notes) == sorted(wanted)  # each once: none lost, none doubled
    assert set(acknowledged) <= set(notes)
