"""A disk that is full: nothing half written, and the keeper is told to make room."""

from __future__ import annotations

import os
import sqlite3
import sys
from collections.abc import Iterator
from contextlib import closing, contextmanager
from typing import Any

import pytest
from sqlalchemy import Engine, event

from warmside.core.file.copies import backup
from warmside.testing import Keeper

LONG = "a long note " * 500
WRITERS = (
    ("record", "observed", "EMB", "--what", "calm", "--note", LONG),
    ("animal", "add", "Sol", "--species", "ball python", "--note", LONG),
    ("plugin", "enable", "rhythm"),
)


@contextmanager
def no_room(keeper: Keeper) -> Iterator[None]:
    """Every connection of the program is told that the file may not grow by a page."""
    with closing(sqlite3.connect(keeper.path)) as connection:
        connection.execute("VACUUM")  # else there are free pages within
        pages = connection.execute("PRAGMA page_count").fetchone()[0]

    def limit(connection: Any, _record: Any) -> None:
        connection.execute(f"PRAGMA max_page_count = {pages}")

    event.listen(Engine, "connect", limit)
    try:
        yield
    finally:
        event.remove(Engine, "connect", limit)


@pytest.mark.parametrize("arguments", WRITERS, ids=lambda a: a[0])
def test_a_full_disk_is_named_and_nothing_is_half_written(
    stocked: Keeper, arguments: tuple[str, ...]
) -> None:
    before = _dump(stocked)
    with no_room(stocked):
        line = stocked.run(*arguments, ok=False).complaint(5)
    assert "full" in line and "make room" in line
    assert _dump(stocked) == before
    stocked.run(*arguments)  # with room again, the same command works


def test_reading_goes_on_while_the_disk_is_full(stocked: Keeper) -> None:
    with no_room(stocked):
        assert "Ember" in stocked.run("today").stdout
        assert stocked.run("file", "check").code == 0


LIMITED = """
import resource, sys
from warmside.cli.entry import main
resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv[1]), resource.RLIM_INFINITY))
sys.exit(main(sys.argv[2:]))
"""


@pytest.mark.skipif(os.name != "posix", reason="needs a limit on the size of files")
def test_a_backup_that_does_not_fit_leaves_no_half_and_no_loss(stocked: Keeper) -> None:
    room = str(stocked.path.stat().st_size // 2)
    before, old = _dump(stocked), backup.all_of(stocked.path)
    result = stocked.run_apart(room, "file", "backup", program=("-c", LIMITED))
    line = result.complaint(5)
    assert "nothing was written" in line or "cannot write" in line
    assert backup.all_of(stocked.path) == old
    assert not list(backup.folder_of(stocked.path).glob("*.part*"))
    assert _dump(stocked) == before


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="needs /dev/full")
@pytest.mark.parametrize("unbuffered", ["", "1"])
def test_an_answer_that_cannot_be_written_is_told_and_the_record_stands(
    stocked: Keeper, monkeypatch: pytest.MonkeyPatch, unbuffered: str
) -> None:
    monkeypatch.setenv("PYTHONUNBUFFERED", unbuffered)
    with open("/dev/full", "w") as full:  # noqa: PTH123  a device, not a path of ours
        for arguments in (("--version",), ("record", "weighed", "EMB=410g")):
            process = stocked.start(*arguments, stdout=full)
            _, told = process.communicate()
            assert process.returncode == 1
            assert told.startswith("warmside: cannot write the answer")
            assert len(told.splitlines()) == 1
    assert "410 g" in stocked.run("history").stdout


def _dump(keeper: Keeper) -> str:
    with closing(sqlite3.connect(keeper.path)) as connection:
        return "\n".join(sorted(connection.iterdump()))  # VACUUM puts indexes in another order
