"""`plugin forget`: what a plugin wrote goes into an archive, and then out of the file."""

from __future__ import annotations

import sqlite3
import zipfile
from contextlib import closing
from pathlib import Path

from readings import READINGS, make_tables, readings
from warmside.testing import new_keeper


def test_a_series_is_forgotten_with_its_shelf_guards_and_steps(tmp_path: Path) -> None:
    keeper = new_keeper(tmp_path)
    make_tables(keeper.path, sensors=2)
    for number in (4, 8):
        with keeper.open().step("read the logger", keeper.now) as writer:
            writer.insert_many(READINGS, readings(number, 2), on_same="skip")
    keeper.run("undo")
    with closing(sqlite3.connect(keeper.path)) as connection, connection:
        connection.execute("INSERT INTO plugin_state VALUES ('logger', 0, 'x', '1', '{}')")
    archive = tmp_path / "logger.zip"
    keeper.run("plugin", "forget", "logger", "--to", str(archive), "--name", "logger")
    with zipfile.ZipFile(archive) as zipped:
        for table in ("logger_reading", "logger_reading_shelf"):
            assert len(zipped.read(f"tables/{table}.jsonl").splitlines()) == 4
    with closing(sqlite3.connect(keeper.path)) as connection:
        assert "logger_reading" not in "".join(connection.iterdump())
    assert keeper.run("undo", ok=False).code == 3, "nothing is left to take back"
