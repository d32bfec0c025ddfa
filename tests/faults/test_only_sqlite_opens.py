"""Only sqlite3 may open a collection file: on POSIX, closing another descriptor drops the locks.

Outside check: fcntl(2), "all of a process's locks on a file are released when any file descriptor
for that file is closed", and "How To Corrupt An SQLite Database File" (sqlite.org), section 2.2.
"""

from __future__ import annotations

import ast
import sqlite3
import threading
import time
from collections.abc import Iterator
from contextlib import closing
from datetime import date
from pathlib import Path

from warmside.core.file.state import read_state
from warmside.core.record.entities import NewEvent
from warmside.core.session.collection import Collection
from warmside.testing import Keeper

ROOT = Path(__file__).parents[2]
SECONDS = 4.0
RECORDING = """
import sys, time
from datetime import date, datetime, UTC
from pathlib import Path
from warmside.cli.opening import open_collection
from warmside.cli.plugin_choice import PluginChoice
from warmside.core.record.entities import NewEvent
now = datetime(2026, 3, 5, 12, tzinfo=UTC)
collection = open_collection(Path(sys.argv[1]), now, PluginChoice())
end, done = time.monotonic() + float(sys.argv[2]), 0
while time.monotonic() < end:
    with collection.step("looked", now) as writer:
        writer.record(NewEvent("observed", date(2026, 3, 5), {"what": "calm"}, 1))
    done += 1
print(done)
"""


def test_reading_the_state_does_not_take_a_writing_thread_its_locks(stocked: Keeper) -> None:
    collection, told = stocked.open(), list[int | BaseException]()
    over = threading.Event()
    threads = [
        threading.Thread(target=record, args=(collection, stocked, over, told)),
        threading.Thread(target=look, args=(stocked.path, over)),
    ]
    others = [
        stocked.start(str(stocked.path), str(SECONDS), program=("-c", RECORDING)) for _ in "ab"
    ]
    for thread in threads:
        thread.start()
    told_elsewhere = [other.communicate() for other in others]
    over.set()
    for thread in threads:
        thread.join()
    with closing(sqlite3.connect(stocked.path)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        query = "SELECT count(*) FROM event WHERE kind = 'observed'"
        ((seen,),) = connection.execute(query).fetchall()
    assert [other.returncode for other in others] == [0, 0], told_elsewhere
    assert isinstance(told[0], int), told
    assert seen == told[0] + sum(int(out) for out, _ in told_elsewhere)


def record(
    collection: Collection, keeper: Keeper, over: threading.Event, told: list[int | BaseException]
) -> None:
    """Record until it is over; tell how often, or what went wrong."""
    done = 0
    try:
        while not over.is_set():
            with collection.step("looked", keeper.now) as writer:
                writer.record(NewEvent("observed", date(2026, 3, 5), {"what": "calm"}, 1))
            done += 1
    except BaseException as error:
        told.append(error)
    else:
        told.append(done)


def look(path: Path, over: threading.Event) -> None:
    """What every request of a long-running face does first."""
    while not over.is_set():
        read_state(path)
        time.sleep(0.002)


def test_an_answer_is_not_saved_over_the_collection(stocked: Keeper) -> None:
    path = stocked.path.rename(stocked.path.with_suffix(".json"))  # a name that may be saved as
    before = path.read_bytes()
    line = Keeper(path, stocked.now).run("today", "--save", str(path), ok=False).complaint(4)
    assert "is the collection itself" in line and path.read_bytes() == before


OPENERS = {"open", "read_bytes", "read_text", "write_bytes", "write_text", "touch", "fdopen"}
MODULES = {"zipfile", "shutil", "mmap"}
SAFE = {
    "csv/mapping.py": {"path.read_text": "a mapping"},
    "csv/pipes.py": {"path.open": "a pipe"},
    "csv/rows.py": {"path.open": "a sheet"},
    "doing/putting_back.py": {"zipfile.is_zipfile": "what SQLite has said is no collection"},
    "doing/importing.py": {"path.open": "a new file"},
    "doing/scaffolding.py": dict.fromkeys(
        ("shutil.rmtree", "target.write_text", "template.read_text"), "a new plugin's folder"
    ),
    "file/archives/writing.py": {
        "archive.open": "a member of an archive",
        "zipfile.ZipFile": "a half-made archive",
    },
    "file/archives/members.py": {
        "path.open": "an archive to make a new collection of",
        "zipfile.BadZipFile": "an error",
        "zipfile.ZipFile": "the same archive",
    },
    "file/archives/reading.py": {"archive.open": "a member of an archive"},
    "file/attention.py": {
        "_place(path).read_text": "a note beside the copies",
        "place.write_text": "a note beside the copies",
    },
    "doing/pictures/keeping.py": {
        "part.write_bytes": "a picture for elsewhere",
        "source.read_bytes": "a kept picture",
    },
    "file/archives/pictures.py": {
        "source.read_bytes": "a kept picture",
        "zipfile.ZipInfo": "a member of an archive",
    },
    "file/pictures/reading.py": {
        "path.read_bytes": "not the collection, which is looked at before"
    },
    "file/pictures/staging.py": {"shutil.rmtree": "a folder of pictures on their way"},
    "file/copies/pictures.py": {"shutil.rmtree": "a folder that a killed program left"},
    "file/pictures/store.py": {
        "part.write_bytes": "a half-made picture",
        "path.open": "a kept picture",
        "small.read_bytes": "a preview",
        "there.read_bytes": "a preview",
        "source.read_bytes": "a kept picture",
    },
    "file/journals.py": {"journal.open": "a journal, on which nobody holds locks"},
    "file/half_made.py": {"os.open": "a file that nobody has open yet"},
    "file/copies/backup.py": {
        "os.open": "a finished copy or a folder",
    },
    "pictures/photos.py": {"Image.open": "bytes in memory"},
    "record/species/files.py": {
        "(_FOLDER / f\"{name.lower().replace(' ', '_')}.toml\").read_text": "a shipped row",
        "_FOLDER.parent.joinpath('synonyms.toml').read_text": "a shipped table",
    },
    "file/copies/restoring.py": {
        "kept.write_bytes": "a copy that nobody has open yet",
        "path.open": "never closed where that would drop locks",
        "_journal(kept).write_bytes": "a journal, on which nobody holds locks",
        "_journal(path).read_bytes": "a journal, on which nobody holds locks",
    },
}


def test_every_way_to_open_a_file_in_core_is_known_not_to_open_a_collection() -> None:
    core = ROOT / "core/warmside/core"
    found = {p.relative_to(core).as_posix(): set(openings(p)) for p in core.rglob("*.py")}
    assert {k: v for k, v in found.items() if v} == {k: set(v) for k, v in SAFE.items()}


def openings(path: Path) -> Iterator[str]:
    """The calls in a module that open a file other than by sqlite3, bar shipped tables."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call):
            called = ast.unparse(node.func)
            owner, _, name = called.rpartition(".")
            other = owner.startswith(("files(", "(files(")) or owner in ("session", "self")
            if (name in OPENERS or owner in MODULES) and not other:
                yield called
