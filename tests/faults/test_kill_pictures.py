"""Killed at each step of taking pictures in: all of them are there sound, or none.

A child dies without a word before each write, sync and renaming in turn, as by SIGKILL.
"""

from __future__ import annotations

import os
import shutil
import warnings
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from invented_pictures import jpeg, picture, write
from warmside.core.file.copies.pictures import named_in
from warmside.core.file.pictures.places import pictures_of
from warmside.core.file.pictures.store import is_sound
from warmside.testing import Keeper

if not hasattr(os, "fork"):
    pytest.skip("needs a child that can be killed", allow_module_level=True)

DIED = 137


def dying(at: int, real: Callable[..., Any], calls: list[int]) -> Callable[..., Any]:
    """The function, before the call of that number of which the process is gone."""

    def call(*arguments: Any, **options: Any) -> Any:
        calls.append(1)
        if len(calls) == at:
            os._exit(DIED)
        return real(*arguments, **options)

    return call


def dies(keeper: Keeper, at: int, *arguments: Any) -> bool:
    """Whether a child that runs the command dies at that call; else it came to its end."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", DeprecationWarning)  # of threads, which no test has
        child = os.fork()
    if child == 0:
        calls: list[int] = []
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(os, "fsync", dying(at, os.fsync, calls))
            patch.setattr(Path, "replace", dying(at, Path.replace, calls))
            patch.setattr(Path, "write_bytes", dying(at, Path.write_bytes, calls))
            result = keeper.run(*arguments, ok=False)
        os._exit(result.code)
    code = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    assert code in (0, DIED)
    return code == DIED


def test_pictures_are_there_whole_or_not_at_all(stocked: Keeper, tmp_path: Path) -> None:
    given = [write(tmp_path, f"{n}.jpg", jpeg(picture(20 + n, 20))) for n in range(2)]
    at = 0
    while True:
        at += 1
        folder = tmp_path / f"try-{at}"
        shutil.copytree(stocked.path.parent, folder)
        keeper = Keeper(folder / stocked.path.name, stocked.now)
        died = dies(keeper, at, "picture", "add", "EMB", *given)
        named = named_in(keeper.path)
        assert len(named) in ((0, 2) if died else (2,))
        assert all(is_sound(pictures_of(keeper.path), one) for one in named)
        if not died:
            break
        keeper.run("picture", "add", "EMB", *given)
        assert keeper.run("file", "check", ok=False).code in (0, 5)
        assert all(is_sound(pictures_of(keeper.path), one) for one in named_in(keeper.path))
    assert at > 10, "hardly anything was written"


def test_halves_that_were_left_are_cleared_away_another_day(
    stocked: Keeper, tmp_path: Path
) -> None:
    given = write(tmp_path, "a.jpg", jpeg())
    assert dies(stocked, 4, "picture", "add", "EMB", given)
    folder = pictures_of(stocked.path)
    assert [p.name[:7] for p in folder.iterdir()] == ["coming-"]
    (half,) = folder.iterdir()
    os.utime(half, (0, 1_000_000_000))
    stocked.pass_days(2)
    stocked.run("record", "observed", "EMB", "--what", "calm")
    assert list(folder.iterdir()) == []
