"""The checksums of rows of series: right whatever was given, wrong after any change."""

from __future__ import annotations

import sqlite3
import zlib
from collections.abc import Sequence
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sqlalchemy import REAL, Column, Integer, MetaData, Text

from readings import READINGS, make_tables, own_version, readings
from warmside.core.file import sqlite
from warmside.core.record import sums
from warmside.core.record.guards import series_guards
from warmside.core.record.series import rows as series_rows
from warmside.core.record.series.declared import declare
from warmside.core.record.series.sums import rows_sum, wrong_lines
from warmside.testing import Keeper, copy_of, new_keeper

METADATA = MetaData()
MIXED = declare(
    "probe_reading",
    Column("at", Integer, nullable=False),
    Column("warm", REAL),
    Column("about", Text),
    Column("count", Integer),
    key=("at",),
    metadata=METADATA,
)


@pytest.fixture(scope="module")
def probed(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """A collection with an empty series of all types."""
    keeper = new_keeper(tmp_path_factory.mktemp("probed"))
    METADATA.create_all(sqlite.open_engine(keeper.path))
    own_version(keeper.path, "probe")
    with closing(sqlite3.connect(keeper.path)) as connection, connection:
        for guard in series_guards(MIXED.name, MIXED.key):
            connection.execute(guard)
        sums.seal(connection, sums.sealed_tables(connection))
    return keeper


@pytest.fixture(scope="module")
def read_out(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """A collection with 60 readings in force and 40 on the shelf."""
    keeper = new_keeper(tmp_path_factory.mktemp("read"))
    make_tables(keeper.path, sensors=20)
    for number, sensors in ((60, 20), (100, 20)):
        with keeper.open().step("read the logger", keeper.now) as writer:
            writer.insert_many(READINGS, readings(number, sensors), on_same="skip")
    keeper.run("undo")
    return keeper


def changed(keeper: Keeper, folder: Path, *statements: str) -> Keeper:
    """A copy in which rows were changed past all guards."""
    copy = copy_of(keeper, folder)
    with closing(sqlite3.connect(copy.path)) as connection, connection:
        guards = connection.execute(
            "SELECT name, sql FROM sqlite_schema WHERE type = 'trigger' AND tbl_name LIKE 'logger%'"
        ).fetchall()
        for name, _ in guards:
            connection.execute(f'DROP TRIGGER "{name}"')
        for statement in statements:
            assert connection.execute(statement).rowcount > 0
        for _, sql in guards:
            connection.execute(sql)
    return copy


def wrong(keeper: Keeper) -> list[tuple[str, int]]:
    with closing(sqlite3.connect(keeper.path)) as connection:
        return wrong_lines(connection)


def test_the_sum_of_a_row_is_the_crc_32_of_its_text() -> None:
    """The check value is that of R. Williams, A Painless Guide to CRC, 1993 (from memory)."""
    assert zlib.crc32(b"123456789") == 0xCBF43926
    assert rows_sum([(1, None, 2.5)]) == zlib.crc32(b"(1, None, 2.5)")
    assert rows_sum([("ä",)]) == zlib.crc32(b"('\\xe4',)")
    assert rows_sum([(1, 2), (3, 4)]) == rows_sum([(3, 4), (1, 2)])


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE logger_reading SET value = value + 1 WHERE sensor_id = 7",
        "UPDATE logger_reading_shelf SET value = value - 1 WHERE sensor_id = 3 AND at = "
        "(SELECT max(at) FROM logger_reading_shelf WHERE sensor_id = 3)",
        "UPDATE logger_reading SET at = at + 1 WHERE sensor_id = 7",
        "UPDATE logger_reading SET value = value + (sensor_id - 5) * 2 WHERE sensor_id IN (4, 6)",
    ],
)
def test_a_reading_that_was_changed_is_found(
    read_out: Keeper, tmp_path: Path, statement: str
) -> None:
    """One value, one of an undone step, an instant, and two that keep their total."""
    assert wrong(read_out) == []
    copy = changed(read_out, tmp_path, statement)
    told = copy.run("file", "check", ok=False)
    assert told.code == 5
    assert "changed since: rows logger_reading of step" in " ".join(told.stdout.split())


def test_the_daily_look_finds_a_changed_reading_within_a_fortnight(
    read_out: Keeper, tmp_path: Path
) -> None:
    copy = changed(read_out, tmp_path, "UPDATE logger_reading SET value = 1 WHERE sensor_id = 7")
    said = [copy.run("today", ok=False).stderr]
    for _ in range(14):
        copy.pass_days(1)
        said.append(copy.run("record", "weighed", "NOBODY=1g", ok=False).stderr)
        said.append(copy.run("enclosure", "add", f"box {len(said)}").stderr)
    assert [text for text in said if "logger_reading of step" in text]


Given_ = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-(2**63), 2**63 - 1),
    st.floats(),
    st.floats(-5, 5).map(lambda x: float(round(x))),
    st.sampled_from(["12", "1.5", "warm", "grün", "", "a'b", 'a"b', "\n"]),
)
ROWS = st.lists(st.tuples(st.integers(0, 10_000), Given_, Given_, Given_), max_size=5)


@settings(max_examples=60)
@given(ROWS, st.booleans())
def test_rows_of_any_types_have_the_sum_of_what_is_stored(
    probed: Keeper, rows: list[Sequence[Any]], as_lists: bool
) -> None:
    """What SQLite refuses leaves nothing; what it makes into another type counts as that."""
    typed = [list(row) for row in rows] if as_lists else rows
    with probed.open().step("read", probed.now) as writer:
        try:
            writer.insert_many(MIXED, typed, on_same="skip")
        except Exception as error:
            assert "does not fit" in str(error), error
    assert wrong(probed) == []


def test_parts_do_not_show(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Rows come in parts of two here: some all new, some all known, some of both."""
    monkeypatch.setattr(series_rows, "AT_ONCE", 2)
    keeper = new_keeper(tmp_path)
    make_tables(keeper.path, sensors=2)
    for rows, new in (
        ([(1, 0, 5), (1, 1, 5), (1, 2, 5)], 3),
        ([(1, 0, 6), (1, 1, 6), (1, 2, 6), (1, 3, 6), (2, 0, 6)], 2),
        ([(2, 1, 7), (2, 1, 8), (2, 1, 9), (2, 2, 7)], 2),
    ):
        with keeper.open().step("read", keeper.now) as writer:
            assert writer.insert_many(READINGS, rows, on_same="skip").new == new
    assert wrong(keeper) == []


def test_rows_of_an_older_version_are_named_as_unchecked_and_get_sums_with_the_next_revision(
    read_out: Keeper, tmp_path: Path
) -> None:
    old = "UPDATE change SET after = json_remove(after, '$.sum') WHERE tbl = 'logger_reading'"
    copy = changed(read_out, tmp_path, old, "UPDATE logger_reading SET value = 1")
    with closing(sqlite3.connect(copy.path)) as connection, connection:
        for (id,) in connection.execute("SELECT id FROM step").fetchall():
            sums.sum_step(connection, id)
    told = " ".join(copy.run("file", "check").stdout.split())
    assert "that an older version wrote, of which the number alone is known: logger_reading" in told
    with closing(sqlite3.connect(copy.path)) as connection, connection:
        sums.renew_series(connection, sums.wrong(connection))
    assert "older version wrote" not in copy.run("file", "check").stdout


def test_what_was_wrong_before_a_revision_stays_wrong(read_out: Keeper, tmp_path: Path) -> None:
    copy = changed(read_out, tmp_path, "UPDATE logger_reading SET value = 1 WHERE sensor_id = 7")
    found = wrong(copy)
    with closing(sqlite3.connect(copy.path)) as connection, connection:
        sums.renew(connection, sums.wrong(connection))
    assert wrong(copy) == found != []


def test_an_archive_brings_the_sums_along(read_out: Keeper, tmp_path: Path) -> None:
    read_out.run("file", "export", str(tmp_path / "all.zip"))
    into = tmp_path / "again.warmside"
    read_out.run("--collection", str(into), "file", "import", str(tmp_path / "all.zip"))
    with closing(sqlite3.connect(into)) as connection:
        kept = connection.execute("SELECT after FROM change WHERE tbl = 'logger_reading'")
        assert all('"sum"' in row[0] for row in kept)
    assert wrong(Keeper(into)) == []
