"""A keeper at a fixed moment, who types commands on one collection file."""

from __future__ import annotations

import contextlib
import io
import json
import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from functools import cache
from pathlib import Path
from typing import Any
from unittest import mock

from msgspec import Struct

from warmside.core.asking.ask import Ask
from warmside.core.file.copies import backup
from warmside.core.plugins.discovery import BUILT_IN
from warmside.core.record.book import Book
from warmside.core.session.collection import Collection

NOON = datetime(2026, 3, 5, 12, 0, tzinfo=UTC)


class Result(Struct, frozen=True):
    """What a command gave: its exit code and what it wrote."""

    code: int
    stdout: str
    stderr: str

    @property
    def json(self) -> Any:
        """The answer of a command run with --json."""
        return json.loads(self.stdout)

    def complaint(self, code: int) -> str:
        """The one line that said why, of a command that had to end with that exit code."""
        assert self.code == code, f"exit {self.code}, not {code}\n{self.stderr}"
        lines = self.stderr.splitlines()
        assert len(lines) == 1 and lines[0].startswith("warmside: "), self.stderr
        assert "a fault in warmside itself" not in lines[0], self.stderr
        return lines[0]


class Keeper:
    """A keeper at a fixed moment, typing commands on one collection file, in this process."""

    def __init__(self, path: Path, now: datetime = NOON) -> None:
        self.path = path
        self.now = now

    def pass_days(self, days: float) -> None:
        """Let time go by."""
        self.now += timedelta(days=days)

    def run(self, *arguments: str | int | Path, ok: bool = True) -> Result:
        """Run a command; with `ok` it must succeed."""
        from warmside.cli.entry import main

        out, err = io.StringIO(), io.StringIO()
        with (
            mock.patch.dict(os.environ, self.environment),
            contextlib.redirect_stdout(out),
            contextlib.redirect_stderr(err),
        ):
            code = main([str(a) for a in arguments])
        result = Result(code, out.getvalue(), err.getvalue())
        assert not ok or code == 0, f"{' '.join(map(str, arguments))}: exit {code}\n{result.stderr}"
        return result

    @property
    def environment(self) -> dict[str, str]:
        """The variables that tell a command which collection, and which moment it is."""
        return {
            "WARMSIDE_COLLECTION": str(self.path),
            "WARMSIDE_NOW": self.now.isoformat(),
            "XDG_CACHE_HOME": str(self.path.parent / "cache"),
            "XDG_CONFIG_HOME": str(self.path.parent / "config"),
            "COLUMNS": os.environ.get("COLUMNS", "80"),
            "NO_COLOR": "1",
        }

    def start(
        self, *arguments: str, program: Sequence[str] = ("-m", "warmside"), **options: Any
    ) -> subprocess.Popen[str]:
        """Start a command in a process of its own, as Python finds it here."""
        pipes = dict.fromkeys(("stdout", "stderr"), subprocess.PIPE)
        return subprocess.Popen(
            [sys.executable, *program, *arguments],
            stdin=subprocess.DEVNULL,
            text=True,
            encoding="utf-8",
            env=os.environ
            | self.environment
            | {"PYTHONPATH": os.pathsep.join(p for p in sys.path if p)},
            **(pipes | options),
        )

    def run_apart(self, *arguments: str, **options: Any) -> Result:
        """Run a command in a process of its own to its end."""
        process = self.start(*arguments, **options)
        out, err = process.communicate()
        return Result(process.returncode, out, err)

    def json(self, *arguments: str | int | Path) -> Any:
        """The JSON answer of a command that must succeed."""
        return self.run(*arguments, "--json").json

    def open(self) -> Collection:
        """The open collection with its plugins."""
        from warmside.cli.opening import open_collection
        from warmside.cli.plugin_choice import PluginChoice

        return open_collection(self.path, self.now, PluginChoice())

    @contextmanager
    def ask(self) -> Iterator[Ask]:
        """A snapshot as of now, with the plugins beside the book."""
        with self.open().ask(self.now) as ask:
            yield ask

    @contextmanager
    def book(self) -> Iterator[Book]:
        """A snapshot as of now."""
        with self.open().read(self.now) as book:
            yield book


@cache
def _blank() -> bytes:
    """A migrated empty collection in Vienna, metric; made once, copied for each keeper."""
    from warmside.cli.creating import create_file

    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "blank.warmside"
        create_file(path, "Test room", "Europe/Vienna", "metric")
        return path.read_bytes()


@cache
def _stocked(plugins: tuple[str, ...], now: datetime) -> dict[str, bytes]:
    """The files of an empty collection with these plugins enabled at a moment, by their paths."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        _enable(_blank_in(folder, now), plugins)
        files = (path for path in folder.rglob("*") if path.is_file())
        return {str(path.relative_to(folder)): path.read_bytes() for path in files}


def _blank_in(folder: Path, now: datetime) -> Keeper:
    path = folder / "test.warmside"
    path.write_bytes(_blank())
    return Keeper(path, now)


def _enable(keeper: Keeper, plugins: tuple[str, ...]) -> Keeper:
    for name in plugins:
        keeper.run("plugin", "enable", name)
    return keeper


def new_keeper(
    folder: Path, *, plugins: tuple[str, ...] | list[str] = (), now: datetime = NOON
) -> Keeper:
    """A keeper with a new empty collection in the folder, with these plugins enabled.

    To enable those that ship takes 60 ms each, so that is done once for all of the same moment.
    """
    if not all(BUILT_IN.get(name, "").startswith("warmside.plugins.") for name in plugins):
        return _enable(_blank_in(folder, now), tuple(plugins))
    for name, content in _stocked(tuple(plugins), now).items():
        path = folder / name
        path.parent.mkdir(mode=0o700, exist_ok=True)
        path.write_bytes(content)
    return Keeper(folder / "test.warmside", now)


def copy_of(keeper: Keeper, folder: Path, *, alone: bool = False) -> Keeper:
    """A keeper with a copy of the collection in another folder.

    With it go the copies that were made of it, unless it is to be `alone`: today's need not be made
    again in each test that records.
    """
    folder.mkdir(parents=True, exist_ok=True)
    path = Path(shutil.copy(keeper.path, folder / keeper.path.name))
    copies = backup.folder_of(keeper.path)
    if copies.is_dir() and not alone:
        shutil.copytree(copies, backup.folder_of(path), dirs_exist_ok=True)
    return Keeper(path, keeper.now)
