"""A file of the first build shows the units it showed, and may show others from now on."""

from __future__ import annotations

import gzip
import json
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from warmside.core.values.display import Display
from warmside.testing import Keeper

OLD = Path(__file__).with_name("level1.warmside.gz")


def old_file(folder: Path, units: str) -> Keeper:
    """A keeper with the old file, as if it had been made with these units."""
    path = folder / "old.warmside"
    path.write_bytes(gzip.decompress(OLD.read_bytes()))
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("UPDATE collection SET units = ?", (units,))
    return Keeper(path)


@pytest.mark.parametrize(
    ("units", "display"), [("metric", Display.METRIC), ("imperial", Display.IMPERIAL)]
)
def test_an_old_file_shows_what_it_showed(tmp_path: Path, units: str, display: Display) -> None:
    keeper = old_file(tmp_path, units)
    with closing(sqlite3.connect(keeper.path)) as connection:
        before = connection.execute("SELECT id, name, zone, units FROM collection").fetchall()
    keeper.run("animal", "list")
    with keeper.book() as book:
        assert book.home.display == display
    with closing(sqlite3.connect(keeper.path)) as connection:
        after = connection.execute("SELECT id, name, zone, units FROM collection").fetchall()
    assert after == before


def test_an_old_file_takes_units_that_the_first_build_refused(tmp_path: Path) -> None:
    keeper = old_file(tmp_path, "metric")
    keeper.run("file", "change", "--units", "us trade")
    with keeper.book() as book:
        assert book.home.display == Display.US_TRADE
    assert keeper.run("--no-plugins", "file", "check").code == 0


def test_the_collection_still_has_one_row(tmp_path: Path) -> None:
    keeper = old_file(tmp_path, "metric")
    keeper.run("animal", "list")
    with (
        closing(sqlite3.connect(keeper.path)) as connection,
        pytest.raises(sqlite3.IntegrityError, match="one_row"),
    ):
        connection.execute(
            "INSERT INTO collection (id, name, zone, units, identity, keeping) "
            "SELECT 2, name, zone, units, identity, keeping FROM collection"
        )


def test_changing_units_changes_nothing_but_the_display(tmp_path: Path) -> None:
    keeper = old_file(tmp_path, "metric")
    keeper.run("animal", "list")

    def rest() -> str:
        with closing(sqlite3.connect(keeper.path)) as connection:
            tables = ("animal", "enclosure", "event", "collection", "plugin_state")
            return json.dumps([connection.execute(f"SELECT * FROM {t}").fetchall() for t in tables])

    before = rest()
    keeper.run("file", "change", "--units", "imperial,mass=g")
    assert rest() != before
    keeper.run("file", "change", "--units", "metric")
    assert rest() == before
