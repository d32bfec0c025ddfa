"""Rows of a series: streamed in, taken back by step, never changed, never half there."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from alembic.operations import Operations
from hypothesis import given, settings
from hypothesis import strategies as st
from sqlalchemy import Column, Float, Integer, MetaData

from readings import KEY, METADATA, READINGS, REMARK, SENSOR, items, make_tables
from warmside.core.file import sqlite
from warmside.core.file.checks.series import check
from warmside.core.record.series.declared import Inserted, create, declare
from warmside.core.record.series.rows import OnSame
from warmside.core.record.series.sums import wrong_lines
from warmside.core.session.collection import Collection
from warmside.core.values.errors import BadInput, NotFound, Refused, WarmsideError
from warmside.testing import Keeper, copy_of, new_keeper

Row = tuple[int, int, int]
WARM: list[Row] = [(1, 0, 31_000), (1, 60, 31_500), (2, 0, 26_000)]


@pytest.fixture
def logger(keeper: Keeper) -> Keeper:
    """A keeper with two sensors."""
    make_tables(keeper.path, sensors=2)
    return keeper


def stored(path: Path, table: str = "logger_reading") -> list[tuple[Any, ...]]:
    with closing(sqlite3.connect(path)) as connection:
        return connection.execute(
            f"SELECT sensor_id, at, value FROM {table} ORDER BY sensor_id, at"
        ).fetchall()


def read_in(keeper: Keeper, rows: list[Row], on_same: OnSame = "skip") -> Inserted:
    with keeper.open().step("read the logger", keeper.now) as writer:
        return writer.insert_many(READINGS, rows, on_same=on_same)


def problems(path: Path) -> list[str]:
    with closing(sqlite3.connect(path)) as connection:
        wrong = [f"{name} of step {step}" for name, step in wrong_lines(connection)]
        return wrong + [problem for _, problem in check(connection) if problem]


def words(keeper: Keeper) -> list[str]:
    with keeper.book() as book:
        return [s.words for s in book.steps()]


def test_rows_are_taken_back_and_put_in_force_again(logger: Keeper) -> None:
    assert read_in(logger, WARM) == Inserted(3, 0)
    logger.run("undo")
    assert (stored(logger.path), stored(logger.path, "logger_reading_shelf")) == ([], WARM)
    logger.run("redo")
    assert (stored(logger.path), stored(logger.path, "logger_reading_shelf")) == (WARM, [])
    logger.run("undo")
    assert stored(logger.path) == []
    assert problems(logger.path) == []


def test_rows_come_from_any_iterable_and_none_leave_no_trace(logger: Keeper) -> None:
    before = words(logger)
    with logger.open().step("nothing", logger.now) as writer:
        assert writer.insert_many(READINGS, iter(()), on_same="skip") == Inserted(0, 0)
    assert words(logger) == before
    with logger.open().step("some", logger.now) as writer:
        assert writer.insert_many(READINGS, (r for r in WARM), on_same="refuse").new == 3
    assert stored(logger.path) == WARM


def test_a_book_streams_them_and_a_writer_sees_its_own(logger: Keeper) -> None:
    query = "SELECT at, value FROM logger_reading WHERE sensor_id = ? ORDER BY at"
    with logger.open().step("read the logger", logger.now) as writer:
        writer.insert_many(READINGS, WARM, on_same="refuse")
        assert list(writer.book.stream(query, (1,))) == [(0, 31_000), (60, 31_500)]
    with logger.book() as book:
        stream = book.stream(query, (1,))
        assert next(stream) == (0, 31_000)
        assert list(stream) == [(60, 31_500)]


def test_values_that_rest_on_a_series_are_dropped_when_it_changes(logger: Keeper) -> None:
    def stamps() -> list[tuple[str]]:
        with closing(sqlite3.connect(logger.path)) as connection:
            query = "SELECT stamp FROM touched WHERE what = 'logger_reading'"
            return connection.execute(query).fetchall()

    seen = [stamps()]
    read_in(logger, WARM)
    seen.append(stamps())
    for deed in ("undo", "redo"):
        logger.run(deed)
        seen.append(stamps())
    assert len({tuple(s) for s in seen}) == 4
    read_in(logger, WARM)
    assert stamps() == seen[-1], "nothing was new"


def test_the_rows_that_are_there_stay_as_they_are(logger: Keeper) -> None:
    read_in(logger, WARM)
    assert read_in(logger, [(1, 60, 99), (1, 120, 32_000), (1, 120, 98)]) == Inserted(1, 2)
    assert stored(logger.path) == sorted([*WARM, (1, 120, 32_000)])
    logger.run("undo")
    assert stored(logger.path) == WARM, "only what that step added"
    before = words(logger)
    assert read_in(logger, WARM) == Inserted(0, 3)
    assert words(logger) == before


@pytest.mark.parametrize(
    ("rows", "error", "said"),
    [
        ([(2, 60, 1), (1, 60, 1)], Refused, r"row 2 \(1, 60, 1\).* same sensor_id, at already"),
        ([(2, 60, 1), (2, 60, 1)], Refused, "row 2"),
        ([(2, 60, 1), (7, 60, 1)], BadInput, "row 2 .*FOREIGN KEY"),
        ([(2, 60, 1), (2, 70, "warm")], BadInput, "row 2 .*TEXT"),
        ([(2, 60, 1), (2, 70, None)], BadInput, "row 2 .*NOT NULL"),
        ([(2, 60, 1), (2, 70, -300_000)], BadInput, "row 2 .*cold"),
    ],
)
def test_a_row_that_cannot_be_written_leaves_none(
    logger: Keeper, rows: list[Row], error: type[WarmsideError], said: str
) -> None:
    """Also where the writer goes on after the error, and whatever is skipped."""
    read_in(logger, WARM)
    with logger.open().step("a broken file", logger.now) as writer:
        with pytest.raises(error, match=said):
            writer.insert_many(READINGS, rows, on_same="refuse")
        if error is BadInput:
            with pytest.raises(error, match=said):
                writer.insert_many(READINGS, rows, on_same="skip")
        writer.insert_many(READINGS, [(2, 500, 5)], on_same="refuse")
    assert stored(logger.path) == [*WARM, (2, 500, 5)]
    logger.run("undo")
    assert stored(logger.path) == WARM
    assert problems(logger.path) == []


def test_a_source_that_fails_midway_leaves_nothing(logger: Keeper) -> None:
    def broken() -> Iterator[Row]:
        yield from WARM
        raise OSError("the cable came off")

    with logger.open().step("read", logger.now) as writer:
        with pytest.raises(OSError, match="cable"):
            writer.insert_many(READINGS, broken(), on_same="skip")
        writer.insert_many(READINGS, WARM[:1], on_same="refuse")
    assert stored(logger.path) == WARM[:1]


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE logger_reading SET value = 7",
        "UPDATE logger_reading SET step_id = 7",
        "DELETE FROM logger_reading",
        "DELETE FROM logger_reading WHERE at = 60",
    ],
)
def test_rows_are_append_only(logger: Keeper, statement: str) -> None:
    read_in(logger, WARM)
    with (
        closing(sqlite3.connect(logger.path)) as connection,
        pytest.raises(sqlite3.IntegrityError, match="logger_reading is append-only"),
    ):
        connection.execute(statement)


def test_a_row_that_an_undone_step_had_too_does_not_open_the_door(logger: Keeper) -> None:
    for _ in range(2):
        read_in(logger, WARM)
        logger.run("undo")
    read_in(logger, WARM)
    with (
        closing(sqlite3.connect(logger.path)) as connection,
        pytest.raises(sqlite3.IntegrityError, match="append-only"),
    ):
        connection.execute("DELETE FROM logger_reading")
    logger.run("undo")
    assert stored(logger.path, "logger_reading_shelf") == sorted(3 * WARM)
    assert problems(logger.path) == []


def test_one_step_may_make_sensors_and_read_them_in_any_order(logger: Keeper) -> None:
    with logger.open().step("two new sensors", logger.now) as writer:
        writer.insert(SENSOR, id=3, place="cool side")
        writer.insert_many(READINGS, [(3, 0, 1)], on_same="refuse")
        writer.insert(SENSOR, id=4, place="hide")
        writer.insert_many(READINGS, [(4, 0, 1)], on_same="refuse")
        writer.insert(REMARK, id=1, sensor=4, instant=0, words="behind the cork")
        writer.insert_many(READINGS, [(4, 60, 1)], on_same="refuse")
    written = stored(logger.path)
    assert problems(logger.path) == []
    logger.run("undo")
    assert (stored(logger.path), remarks(logger)) == ([], [])
    logger.run("redo")
    assert stored(logger.path) == written == [(3, 0, 1), (4, 0, 1), (4, 60, 1)]
    assert remarks(logger) == [(1,)]
    assert problems(logger.path) == []


def remarks(keeper: Keeper) -> list[tuple[int]]:
    with closing(sqlite3.connect(keeper.path)) as connection:
        return connection.execute("SELECT id FROM logger_remark").fetchall()


def test_undo_is_refused_while_readings_rest_on_the_step(logger: Keeper) -> None:
    with logger.open().step("a third sensor", logger.now) as writer:
        writer.insert(SENSOR, id=3, place="cool side")
    read_in(logger, [(3, 0, 1)])
    (sensor, _) = (s.id for s in reversed(steps(logger)[:2]))
    refused = logger.run("undo", sensor, ok=False)
    assert (refused.code, "(read the logger) rests on it" in refused.stderr) == (4, True)
    logger.run("undo")
    logger.run("undo", sensor)
    assert stored(logger.path) == []


def steps(keeper: Keeper) -> list[Any]:
    with keeper.book() as book:
        return book.steps()


def test_undo_is_refused_while_a_row_rests_on_a_reading(logger: Keeper) -> None:
    """Even where the reference would cascade; a remark of the same step goes with it."""
    with logger.open().step("readings", logger.now) as writer:
        writer.insert_many(READINGS, WARM, on_same="refuse")
        writer.insert(REMARK, id=1, sensor=1, instant=0, words="lamp on")
    with logger.open().step("a remark", logger.now) as writer:
        writer.insert(REMARK, id=2, sensor=1, instant=60, words="lamp off")
    later, read = steps(logger)[:2]
    refused = logger.run("undo", read.id, ok=False)
    assert (refused.code, f"step {later.id} (a remark) rests on it" in refused.stderr) == (4, True)
    logger.run("undo")
    logger.run("undo")
    assert stored(logger.path) == []
    logger.run("redo")
    assert stored(logger.path) == WARM
    assert remarks(logger) == [(1,)]


# what Hypothesis tries, against a plain dict

ROWS = st.lists(st.tuples(st.integers(1, 2), st.integers(0, 4), st.integers(0, 9)), max_size=6)
DEEDS = st.lists(
    st.one_of(
        st.tuples(st.sampled_from(["skip", "refuse"]), ROWS),
        st.tuples(st.sampled_from(["undo", "redo"]), st.just([])),
    ),
    min_size=1,
    max_size=10,
)


class Model:
    """What a series should hold, in the plainest way."""

    def __init__(self) -> None:
        self.rows: dict[tuple[int, int], int] = {}
        self.done: list[dict[tuple[int, int], int]] = []
        self.undone: list[dict[tuple[int, int], int]] = []

    def insert(self, rows: list[Row], on_same: str) -> Inserted | None:
        added: dict[tuple[int, int], int] = {}
        for sensor, at, value in rows:
            if (sensor, at) not in self.rows and (sensor, at) not in added:
                added[sensor, at] = value
        if on_same == "refuse" and len(added) < len(rows):
            return None
        if added:
            self.rows |= added
            self.done.append(added)
            self.undone.clear()
        return Inserted(len(added), len(rows) - len(added))

    def undo(self) -> bool:
        if self.done:
            self.undone.append(self.done.pop())
            self.rows = {k: v for k, v in self.rows.items() if k not in self.undone[-1]}
            return True
        return False

    def redo(self) -> bool:
        if self.undone:
            self.done.append(self.undone.pop())
            self.rows |= self.done[-1]
            return True
        return False


@pytest.fixture(scope="module")
def blank(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    keeper = new_keeper(tmp_path_factory.mktemp("blank"))
    make_tables(keeper.path, sensors=2)
    return keeper


@settings(max_examples=40)
@given(DEEDS)
def test_any_order_of_deeds_gives_what_a_plain_dict_gives(
    blank: Keeper, deeds: list[tuple[Any, list[Row]]]
) -> None:
    model = Model()
    with TemporaryDirectory() as folder:
        keeper = copy_of(blank, Path(folder))
        collection = keeper.open()
        for deed, rows in deeds:
            if deed in ("undo", "redo"):
                assert moved(collection, keeper, deed) == getattr(model, deed)()
            else:
                assert inserted(collection, keeper, rows, deed) == model.insert(rows, deed)
            wanted = sorted((*key, value) for key, value in model.rows.items())
            assert stored(keeper.path) == wanted
        assert problems(keeper.path) == []


def moved(collection: Collection, keeper: Keeper, deed: str) -> bool:
    try:
        getattr(collection, deed)(keeper.now)
    except NotFound:
        return False
    return True


def inserted(
    collection: Collection, keeper: Keeper, rows: list[Row], on_same: OnSame
) -> Inserted | None:
    try:
        with collection.step("read", keeper.now) as writer:
            return writer.insert_many(READINGS, rows, on_same=on_same)
    except Refused:
        return None


# declarations


def test_a_revision_makes_the_tables_that_are_declared(keeper: Keeper, tmp_path: Path) -> None:
    make_tables(tmp_path / "declared.warmside")
    engine = sqlite.open_engine(keeper.path)
    with engine.begin() as connection:
        METADATA.create_all(connection, tables=[SENSOR])
        context = MigrationContext.configure(connection, opts={"target_metadata": METADATA})
        create(Operations(context), READINGS.name, *items(), key=KEY)
        found = compare_metadata(context, METADATA)
        assert not [f for f in found if "logger_reading" in str(f)]
    assert schema(keeper.path) == schema(tmp_path / "declared.warmside")


def schema(path: Path) -> dict[str, str]:
    query = "SELECT name, sql FROM sqlite_schema WHERE tbl_name LIKE 'logger_reading%'"
    with closing(sqlite3.connect(path)) as connection:
        return dict(connection.execute(query).fetchall())


@pytest.mark.parametrize(
    ("columns", "key", "said"),
    [
        ([Column("at", Integer)], ("time",), "key"),
        ([Column("at", Integer)], (), "key"),
        ([Column("value", Integer), Column("at", Integer)], ("at",), "come first"),
        ([Column("at", Integer), Column("step_id", Integer)], ("at",), "step_id"),
        ([Column("at", Integer), Column("value", Float)], ("at",), "value must be"),
    ],
)
def test_a_wrong_declaration_is_named(
    columns: list[Column[Any]], key: tuple[str, ...], said: str
) -> None:
    with pytest.raises(TypeError, match=said):
        declare("logger_odd", *columns, key=key, metadata=MetaData())
