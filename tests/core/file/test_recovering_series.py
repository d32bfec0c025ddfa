"""A logger's readings come back from a damaged file, page by page, and from its copies."""

from __future__ import annotations

import random
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from built_once import made_once
from warmside.cli import built_tables
from warmside.core.file.copies import backup
from warmside.core.file.recovery.pages import Pages
from warmside.testing import Keeper, copy_of, new_keeper

TABLE = "habitat_reading"
PAGE = 4096


@pytest.fixture(autouse=True)
def _built_once(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(built_tables, "make_tables", made_once)


@pytest.fixture(scope="module")
def logged(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """2,000 readings that the copy of yesterday has, 1,000 of today, and 500 that were undone."""
    keeper = new_keeper(tmp_path_factory.mktemp("logged"), plugins=["habitat"])
    keeper.run("enclosure", "add", "Low shelf")
    keeper.run("habitat", "logger", "LOW", "grey", "--probe", "warm=warm side")
    for number, name in ((2000, "first"), (1000, "second"), (500, "undone")):
        read_out(keeper, number, name)
        keeper.pass_days(1) if name == "first" else None
    keeper.run("undo")
    return keeper


def read_out(keeper: Keeper, number: int, name: str) -> None:
    """A file of one reading a minute, before now."""
    start = {"first": "2026-01", "second": "2026-02", "undone": "2025-12"}[name]
    lines = [
        f"{start}-{1 + n // 1440:02} {n // 60 % 24:02}:{n % 60:02},{25 + n % 70 / 10}"
        for n in range(number)
    ]
    table = keeper.path.with_name(f"{name}.csv")
    table.write_text("\n".join(["time,warm", *lines]) + "\n")
    keeper.run("habitat", "read", "grey", table)


@pytest.fixture
def mine(logged: Keeper, tmp_path: Path) -> Keeper:
    keeper = copy_of(logged, tmp_path, alone=True)
    for copy in backup.all_of(logged.path):
        backup.make(copy, backup.folder_of(keeper.path) / copy.name)
    return keeper


def rows(path: Path, table: str = TABLE) -> list[tuple[object, ...]]:
    with closing(sqlite3.connect(path)) as connection:
        return connection.execute(f'SELECT * FROM "{table}" ORDER BY 1, 2, 3').fetchall()


def pages_of(path: Path, table: str = TABLE) -> list[int]:
    """The pages of a table, from its root down, the root first."""
    with closing(sqlite3.connect(path)) as connection:
        query = "SELECT rootpage FROM sqlite_schema WHERE name = ?"
        root = int(connection.execute(query, (table,)).fetchone()[0])
    pages, found = Pages(path.read_bytes()), [root]
    for number in found:
        page = pages.page(number)
        if page[0] == 2:
            found += pages._children(page, 0)
    return found


def strike(path: Path, *pages: int) -> None:
    with path.open("r+b") as file:
        for page in pages:
            file.seek((page - 1) * PAGE)
            file.write(b"\xff" * PAGE)


def recovered(keeper: Keeper) -> tuple[Keeper, dict[str, object]]:
    target = keeper.path.with_name("saved.warmside")
    told = keeper.json("file", "recover", target)
    saved = Keeper(target, keeper.now)
    assert saved.json("file", "check")["ok"] is True
    return saved, told


@pytest.mark.parametrize("table", [TABLE, f"{TABLE}_shelf"])
def test_our_own_reading_gives_what_sqlite_gives(logged: Keeper, table: str) -> None:
    """Outside check: SQLite itself; rows lie in the pages between as well as in leaves."""
    pages = Pages(logged.path.read_bytes())
    found = [row.values for row in pages.rows(pages_of(logged.path, table)[0], in_key=True)]
    wanted = rows(logged.path, table)
    assert sorted(found) == wanted and len(wanted) in (3000, 500)
    assert pages.unread == 0


@settings(max_examples=25, deadline=None)
@given(
    st.dictionaries(
        st.tuples(st.integers(-(2**63), 2**63 - 1), st.text("ab\u2640", max_size=900)),
        st.tuples(st.none() | st.binary(max_size=3000), st.floats(allow_nan=False)),
        min_size=1,
        max_size=40,
    ),
    st.sampled_from([512, 1024, 4096, 65536]),
)
def test_any_table_that_is_stored_in_its_key(
    tmp_path_factory: pytest.TempPathFactory,
    held: dict[tuple[int, str], tuple[bytes | None, float]],
    size: int,
) -> None:
    """Outside check: SQLite itself, with rows that go on in other pages, in pages of any size."""
    path = tmp_path_factory.mktemp("key") / "a.db"
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute(f"PRAGMA page_size = {size}")
        keys = "a INTEGER, b TEXT, c BLOB, d REAL, PRIMARY KEY (a, b)"
        connection.execute(f"CREATE TABLE t ({keys}) WITHOUT ROWID")
        given = [(*key, *values) for key, values in held.items()]
        connection.executemany("INSERT INTO t VALUES (?, ?, ?, ?)", given)
    pages = Pages(path.read_bytes())
    found = [row.values for row in pages.rows(2, in_key=True)]
    assert sorted(map(repr, found)) == sorted(map(repr, map(as_kept, given)))


def as_kept(row: tuple[int, str, bytes | None, float]) -> tuple[object, ...]:
    """A real that is a whole number of 48 bits is kept as one."""
    whole = row[3] == int(row[3]) and abs(row[3]) < 2**47 if abs(row[3]) < 1e300 else False
    return (*row[:3], int(row[3]) if whole else row[3])


def test_a_file_without_its_first_page_gives_back_readings_that_no_copy_has(mine: Keeper) -> None:
    wanted = rows(mine.path), rows(mine.path, f"{TABLE}_shelf")
    strike(mine.path, 1)
    saved, told = recovered(mine)
    assert (rows(saved.path), rows(saved.path, f"{TABLE}_shelf")) == wanted
    assert "not_whole" not in told
    saved.run("redo")
    assert len(rows(saved.path)) == 3500


def test_a_struck_page_is_filled_from_the_copy(mine: Keeper) -> None:
    wanted = rows(mine.path)
    _, first, *_ = pages_of(mine.path)
    strike(mine.path, first)
    saved, told = recovered(mine)
    assert rows(saved.path) == wanted
    assert "not_whole" not in told
    assert {r["table"]: r["from_copies"] for r in told["recovered"]}[TABLE] > 100


def test_readings_that_are_nowhere_are_counted_by_their_step(logged: Keeper, mine: Keeper) -> None:
    """The last page holds readings of today, which are in no copy."""
    wanted = rows(mine.path)
    strike(mine.path, pages_of(mine.path)[-1])
    saved, told = recovered(mine)
    gone = len(wanted) - len(rows(saved.path))
    assert 0 < gone < 1000
    (step,) = told["not_whole"]
    assert step["lost"] == f"{gone} of 1000 rows of habitat_reading are gone"
    assert set(rows(saved.path)) < set(wanted)
    saved.run("habitat", "read", "grey", logged.path.with_name("second.csv"))
    assert [r[:3] for r in rows(saved.path)] == [r[:3] for r in wanted]


def test_a_changed_reading_comes_from_the_copy_or_is_said(mine: Keeper) -> None:
    wanted = rows(mine.path)
    with closing(sqlite3.connect(mine.path)) as connection, connection:
        connection.execute(f"DROP TRIGGER {TABLE}_is_append_only")
        for row in (wanted[7], wanted[-7]):
            change = f"UPDATE {TABLE} SET value = value + 64 WHERE at = ?"
            connection.execute(change, (row[1],))
    saved, told = recovered(mine)
    found = rows(saved.path)
    assert found[:2000] == wanted[:2000]
    assert found[2000:] != wanted[2000:]
    (step,) = told["not_whole"]
    assert step["lost"] == "not all of the 1000 rows of habitat_reading are as they were read in"


@pytest.mark.parametrize("table", [TABLE, f"{TABLE}_shelf", "step", "change", "event"])
def test_a_table_that_is_gone_whole_leaves_a_sound_file(mine: Keeper, table: str) -> None:
    strike(mine.path, *pages_of(mine.path, table))
    saved, told = recovered(mine)
    lost = " ".join(s["lost"] for s in told.get("not_whole", []))
    if table == TABLE:
        assert lost == "1000 of 1000 rows of habitat_reading are gone"
        assert len(rows(saved.path)) == 2000
    elif table == f"{TABLE}_shelf":
        assert lost == "500 of 500 rows of habitat_reading are gone"
    else:
        assert len(rows(saved.path)) == 3000
        assert len(rows(saved.path, f"{TABLE}_shelf")) == 500


@pytest.mark.parametrize("seed", range(4))
def test_whatever_pages_of_it_are_struck_the_new_file_is_sound(mine: Keeper, seed: int) -> None:
    draw, content = random.Random(seed), bytearray(mine.path.read_bytes())
    places = range(1, len(content) // PAGE)
    for page in draw.sample(places, draw.choice([1, 3, 9])):
        other = draw.choice(places) * PAGE
        swapped = bytes(content[other : other + PAGE])
        content[page * PAGE : (page + 1) * PAGE] = draw.choice([bytes(PAGE), swapped])
    mine.path.write_bytes(content)
    recovered(mine)
