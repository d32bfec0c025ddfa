"""`file check` sees what is wrong with a series."""

from __future__ import annotations

import sqlite3
from contextlib import closing

import pytest

from readings import READINGS, make_tables, readings
from warmside.testing import Keeper


@pytest.fixture
def logger(keeper: Keeper) -> Keeper:
    """A keeper with 20 readings in force and 10 on the shelf."""
    make_tables(keeper.path, sensors=20)
    for number, sensors in ((20, 10), (30, 20)):
        with keeper.open().step("read the logger", keeper.now) as writer:
            writer.insert_many(READINGS, readings(number, sensors), on_same="skip")
    keeper.run("undo")
    keeper.run("file", "backup")
    return keeper


def test_a_sound_series_is_well(logger: Keeper) -> None:
    assert "series logger_reading" in [c["what"] for c in logger.json("file", "check")["checks"]]


@pytest.mark.parametrize(
    ("damage", "problem"),
    [
        (
            "INSERT INTO logger_reading_shelf (sensor_id, at, value, step_id) SELECT * "
            "FROM logger_reading WHERE sensor_id = 1;"
            "DELETE FROM logger_reading WHERE sensor_id = 1",
            "18 rows in force, not 20",
        ),
        ("DELETE FROM logger_reading_shelf WHERE sensor_id = 11", "rows undone, not"),
        (
            "INSERT INTO logger_reading SELECT sensor_id, at, value, step_id "
            "FROM logger_reading_shelf WHERE sensor_id = 11",
            "rows in force, not 0",
        ),
        ("DELETE FROM change WHERE tbl = 'logger_reading'", "rows in force, not 0"),
        ("DROP TRIGGER logger_reading_is_append_only", "missing: logger_reading_is_append_only"),
        ("DROP TRIGGER logger_reading_leaves_by_the_shelf", "leaves_by_the_shelf"),
        ("ALTER TABLE logger_reading ADD COLUMN humidity INTEGER", "other columns"),
    ],
)
def test_what_is_wrong_is_named(logger: Keeper, damage: str, problem: str) -> None:
    with closing(sqlite3.connect(logger.path)) as connection:
        connection.executescript(damage)
    told = logger.run("file", "check", ok=False)
    assert (told.code, problem in " ".join(told.stdout.split())) == (5, True), told.stdout
