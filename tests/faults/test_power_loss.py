"""The power goes: whatever was not synced may be lost, in any part and order; what was said stands.

A program records under a layer that writes down each write, sync, rename and removal. From that,
disks are made as they may look had the power gone at a moment drawn at random: of the data that
was not synced each sector may be there or not, of names what came first may be there. (The model of
Pillai et al., "All File Systems Are Not Created Equal", OSDI 2014.)
"""

from __future__ import annotations

import random
import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import NamedTuple

import pytest

from warmside.testing import Keeper, new_keeper

COMPILER = shutil.which("cc") or shutil.which("gcc")
if not (sys.platform.startswith("linux") and COMPILER):
    pytest.skip("needs a C compiler and LD_PRELOAD", allow_module_level=True)

MOMENTS = 240
SECTOR = 512
WRITING = """
import os, sys
from warmside.cli.entry import main
def said(*words):
    assert main(list(words)) == 0, words
    sys.stdout.flush()
    os.write(1, b"acknowledged\\n")
for n in range(12):
    said("record", "weighed", f"EMB={410 + n}g")
said("undo")
said("animal", "add", "Sol", "--species", "ball python")
os.environ["WARMSIDE_NOW"] = "2026-03-06T12:00+00:00"
for n in range(4):
    said("record", "weighed", f"EMB={430 + n}g", "--note", "a long note " * 900)
"""


class Deed(NamedTuple):
    """One thing that was done: to which file, where, with which bytes."""

    what: str
    path: str
    place: int
    data: bytes


class Disk:
    """What is on the disk for certain, and what only may be. A file is a number; names lead to it.

    `changes` are makings, removals and renamings whose folder was not synced: each a folder, and
    the names that it sets, with None for one that is gone.
    """

    def __init__(self, files: dict[str, bytes]) -> None:
        self.now = {path: number for number, path in enumerate(files)}
        self.names = dict(self.now)
        self.kept = {self.now[path]: content for path, content in files.items()}
        self.pending: dict[int, list[Deed]] = {}
        self.changes: list[tuple[str, dict[str, int | None]]] = []

    def do(self, deed: Deed) -> None:
        """Do one thing: a sync makes certain what was done to the file, or in the folder."""
        if deed.what in ("write", "cut"):
            self.pending.setdefault(self.now[deed.path], []).append(deed)
        elif deed.what == "make":
            number = len(self.kept)
            self.kept[number] = b""
            self._set(deed.path, {deed.path: number})
        elif deed.what == "gone":
            self._set(deed.path, {deed.path: None})
        elif deed.what == "name":
            self._set(deed.path, {deed.path: None, deed.data.decode(): self.now[deed.path]})
        elif deed.what == "sync" and deed.path in self.now:
            number = self.now[deed.path]
            self.kept[number] = _written(self.kept[number], self.pending.pop(number, []))
        elif deed.what == "sync":
            for names in (n for folder, n in self.changes if folder == deed.path):
                self.names = _named(self.names, names)
            self.changes = [c for c in self.changes if c[0] != deed.path]

    def _set(self, path: str, names: dict[str, int | None]) -> None:
        self.now = _named(self.now, names)
        self.changes.append((str(Path(path).parent), names))

    def after_the_power_went(self, draw: random.Random) -> dict[str, bytes]:
        """One way in which the files may be found."""
        names = self.names
        for _, more in self.changes[: draw.randint(0, len(self.changes))]:
            names = _named(names, more)
        return {path: self._found(number, draw) for path, number in names.items()}

    def _found(self, number: int, draw: random.Random) -> bytes:
        parts = [p for deed in self.pending.get(number, []) for p in _parts(deed)]
        return _written(self.kept[number], [p for p in parts if draw.random() < 0.5])


def _named(names: dict[str, int], more: dict[str, int | None]) -> dict[str, int]:
    both = {**names, **more}
    return {path: number for path, number in both.items() if number is not None}


def _parts(deed: Deed) -> list[Deed]:
    return [
        deed._replace(place=deed.place + n, data=deed.data[n : n + SECTOR])
        for n in range(0, len(deed.data), SECTOR)
    ] or [deed]


def _written(content: bytes, deeds: list[Deed]) -> bytes:
    found = bytearray(content)
    for deed in deeds:
        found = found.ljust(deed.place, b"\0")
        if deed.what == "cut":
            found = found[: deed.place]
        else:
            found[deed.place : deed.place + len(deed.data)] = deed.data
    return bytes(found)


@pytest.fixture(scope="module")
def traced(tmp_path_factory: pytest.TempPathFactory) -> tuple[Keeper, Path, list[Deed]]:
    """A collection as it was, and all that a program then did in its folder."""
    base = tmp_path_factory.mktemp("power")
    shim, log = base / "traced.so", base / "log"
    source = Path(__file__).with_name("traced_writes.c")
    assert COMPILER
    subprocess.run([COMPILER, "-shared", "-fPIC", "-O1", "-o", shim, source, "-ldl"], check=True)
    (base / "room").mkdir()
    keeper = new_keeper(base / "room")
    keeper.run("animal", "add", "Ember", "--species", "ball python")
    shutil.copytree(base / "room", base / "before")
    preload = {"LD_PRELOAD": str(shim), "TRACED_LOG": str(log), "TRACED_FOLDER": str(base / "room")}
    with pytest.MonkeyPatch.context() as patch:
        for name, value in preload.items():
            patch.setenv(name, value)
        done = keeper.run_apart(program=("-c", WRITING))
    assert done.code == 0, done.stderr
    return keeper, base / "before", list(deeds(log.read_bytes()))


def deeds(log: bytes) -> Iterator[Deed]:
    """What the layer wrote down."""
    place = 0
    while place < len(log):
        end = log.index(b"\n", place)
        what, path, where, size = log[place:end].decode().split("\t")
        yield Deed(what, path, int(where), log[end + 1 : end + 1 + int(size)])
        place = end + 1 + int(size)


def test_what_was_acknowledged_is_there_after_the_power_went(
    traced: tuple[Keeper, Path, list[Deed]], tmp_path: Path
) -> None:
    keeper, before, done = traced
    assert sum(d.data == b"acknowledged\n" for d in done) == 18
    draw = random.Random(20260305)
    moments = sorted(draw.randrange(len(done)) for _ in range(MOMENTS))
    room = keeper.path.parent
    disk, at, acknowledged = disk_of(before, room), 0, 0
    for number, moment in enumerate(moments):
        for deed in done[at:moment]:
            acknowledged += deed.data == b"acknowledged\n" and deed.what == "said"
            disk.do(deed)
        at = moment
        found = put(disk.after_the_power_went(draw), room, tmp_path / str(number))
        steps = sound(found / keeper.path.name)
        assert acknowledged <= steps - 1 <= acknowledged + 1, (moment, done[moment])
        for copy in (found / f"{keeper.path.name}-backups").glob("*.warmside"):
            sound(copy)
        shutil.rmtree(found)


def disk_of(before: Path, room: Path) -> Disk:
    """The disk before the program began, under the names of its folder."""
    files = [p for p in before.rglob("*") if p.is_file()]
    return Disk({str(room / p.relative_to(before)): p.read_bytes() for p in files})


def put(files: dict[str, bytes], room: Path, folder: Path) -> Path:
    """The files of one disk in a folder."""
    for path, content in files.items():
        target = folder / Path(path).relative_to(room)
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)
    return folder


def sound(path: Path) -> int:
    """The number of steps in a file that SQLite finds whole, as the next start opens it."""
    with closing(sqlite3.connect(path)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        return int(connection.execute("SELECT count(*) FROM step").fetchone()[0])
