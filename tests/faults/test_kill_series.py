"""kill -9 while many readings are written, taken back or put in force again: all or none."""

from __future__ import annotations

import os
import random
from contextlib import closing
from pathlib import Path

import pytest
from tests.faults.test_kill import killed_at_random, sound, writing

from readings import READINGS, make_tables, readings
from warmside.core.file.checks.series import check
from warmside.testing import Keeper

if os.name != "posix":
    pytest.skip("needs SIGKILL", allow_module_level=True)

ROWS = 60_000
READING_IN = """
import sys
from pathlib import Path
import readings
from warmside.testing import Keeper
keeper = Keeper(Path(sys.argv[1]))
collection = keeper.open()
print("go", flush=True)
with collection.step("read the logger", keeper.now) as writer:
    writer.insert_many(readings.READINGS, readings.readings(int(sys.argv[2])), on_same="refuse")
"""
MOVING = """
import sys
from pathlib import Path
from warmside.testing import Keeper
keeper = Keeper(Path(sys.argv[1]))
collection = keeper.open()
print("go", flush=True)
getattr(collection, sys.argv[2])(keeper.now)
"""


@pytest.fixture
def logger(stocked: Keeper) -> Keeper:
    """The stocked collection with ten sensors."""
    make_tables(stocked.path, sensors=10)
    return stocked


def in_force_and_shelved(path: Path) -> tuple[int, int]:
    """The rows of a file that was found whole, each where its step says."""
    with closing(sound(path)) as connection:
        assert [problem for _, problem in check(connection) if problem] == []
        main, shelf = (
            connection.execute(f"SELECT count(*) FROM {table}").fetchone()[0]
            for table in ("logger_reading", "logger_reading_shelf")
        )
    return main, shelf


def test_readings_are_read_in_whole_or_not_at_all(logger: Keeper) -> None:
    before = logger.path.read_bytes()
    arguments = (str(logger.path), str(ROWS))
    for finished in killed_at_random(
        logger, random.Random(8), *arguments, program=READING_IN, begun=writing(logger.path)
    ):
        found = in_force_and_shelved(logger.path)
        assert found == (ROWS, 0) or (not finished and found == (0, 0))
        logger.path.write_bytes(before)


@pytest.mark.parametrize(
    ("deed", "start", "end"), [("undo", (ROWS, 0), (0, ROWS)), ("redo", (0, ROWS), (ROWS, 0))]
)
def test_readings_are_moved_whole_or_not_at_all(
    logger: Keeper, deed: str, start: tuple[int, int], end: tuple[int, int]
) -> None:
    with logger.open().step("read the logger", logger.now) as writer:
        writer.insert_many(READINGS, readings(ROWS), on_same="refuse")
    if deed == "redo":
        logger.run("undo")
    assert in_force_and_shelved(logger.path) == start
    before = logger.path.read_bytes()
    arguments = (str(logger.path), deed)
    for finished in killed_at_random(
        logger, random.Random(9), *arguments, program=MOVING, begun=writing(logger.path)
    ):
        found = in_force_and_shelved(logger.path)
        assert found == end or (not finished and found == start)
        logger.path.write_bytes(before)
