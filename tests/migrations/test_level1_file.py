"""A file as the first build wrote it opens with nothing lost, after a verified backup."""

from __future__ import annotations

import gzip
import json
import sqlite3
from collections import Counter
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from warmside.migrations import CORE
from warmside.testing import Keeper

PACKED = Path(__file__).with_name("level1.warmside.gz")
LATER = datetime(2026, 3, 6, 9, 0, tzinfo=UTC)
Row = dict[str, Any]


def tables(path: Path) -> dict[str, list[Row]]:
    """Every row of every table, as plain SQLite reads them."""
    with closing(sqlite3.connect(path)) as connection:
        connection.row_factory = sqlite3.Row
        query = "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%'"
        names = [r[0] for r in connection.execute(query)]
        return {
            n: [dict(r) for r in connection.execute(f'SELECT * FROM "{n}"')]
            for n in names
            if not n.startswith("schema_version_")
        }


@pytest.fixture
def old(tmp_path: Path) -> Path:
    """The file of the first build."""
    path = tmp_path / "level1.warmside"
    path.write_bytes(gzip.decompress(PACKED.read_bytes()))
    return path


@pytest.fixture
def before(old: Path) -> dict[str, list[Row]]:
    return tables(old)


@pytest.fixture
def keeper(old: Path, before: dict[str, list[Row]]) -> Keeper:
    """The keeper of the file, who opened it with the program of today."""
    keeper = Keeper(old, LATER)
    keeper.run("animal", "list")
    return keeper


def test_the_file_is_brought_to_the_head_of_today(keeper: Keeper) -> None:
    with closing(sqlite3.connect(keeper.path)) as connection:
        assert connection.execute("SELECT * FROM schema_version_core").fetchall() == [(CORE.head,)]
        assert connection.execute("PRAGMA foreign_key_check").fetchall() == []


def test_every_row_is_there_after_the_upgrade(keeper: Keeper, before: dict[str, list[Row]]) -> None:
    """In the columns that both have; `data` of events and the images of steps are told apart."""
    after = tables(keeper.path)
    for table, rows in before.items():
        apart = {"data"} if table.startswith("event") else set()
        apart |= {"key", "before", "after"} if table == "change" else set()
        for row, now in zip(in_order(rows), in_order(after[table]), strict=True):
            assert row.items() - of(row, apart) <= now.items(), table


def in_order(rows: list[Row]) -> list[Row]:
    return sorted(rows, key=lambda r: [str(r[k]) for k in list(r)[:2]])


def of(row: Row, names: set[str]) -> set[tuple[str, Any]]:
    return {(k, v) for k, v in row.items() if k in names}


def test_what_was_typed_in_events_is_all_there(
    keeper: Keeper, before: dict[str, list[Row]]
) -> None:
    after = tables(keeper.path)
    codes = {a["id"]: {a["code"], a["name"]} for a in after["animal"]}
    for table in ("event", "event_shelf"):
        now = {e["id"]: json.loads(e["data"]) for e in after[table]}
        for event in before[table]:
            told = [*now[event["id"]].values()]
            partner = now[event["id"]].get("partner_animal_id")
            told += codes.get(partner, set())
            for value in json.loads(event["data"]).values():
                assert value in told or value == "", event


def test_words_that_meant_an_animal_or_a_day_are_that_and_others_stay_words(
    keeper: Keeper,
) -> None:
    events = keeper.json("history", "--kind", "mated", "--kind", "lent", "--last", "20")["events"]
    assert {e["event"]: e["what"] for e in events} == {
        209: "mated: with Sesame (SES)",
        210: "mated: with Pepper (PEP)",
        211: "mated: with a neighbour's male",
        212: "lent out: to a friend, pick of two, until 2026-06-01",
        215: "lent out: to a friend, until 2026-07",
        217: "lent out: to a friend",
    }
    typed = {e["event"]: e["data"] for e in events}
    assert typed[210] == {"partner": "PEP", "partner_words": ""}
    assert typed[211] == {"partner": None, "partner_words": "a neighbour's male"}
    assert (typed[212]["until"], typed[212]["until_words"]) == ("2026-06-01", "")
    assert (typed[215]["until"], typed[215]["until_words"]) == (None, "2026-07")


def test_parents_keep_their_certainty(keeper: Keeper) -> None:
    kin = keeper.json("animal", "show", "TUP")["kin"]
    assert [(k["role"], k["animal"], k["certainty"], k["weight"]) for k in kin] == [
        ("dam", "Clove (CLO)", "probable", None),
        ("sire", "Pepper (PEP)", "probable", None),
        ("young", "Sesame (SES)", "possible", None),
    ]


def test_a_verified_copy_of_the_old_file_is_kept(
    old: Path, before: dict[str, list[Row]], tmp_path: Path
) -> None:
    said = Keeper(old, LATER).run("animal", "list").stderr.splitlines()[0]
    assert said.startswith("note: brought the tables of core")
    copy = Path(said.partition("copy kept in ")[2])
    assert tables(copy) == before
    with closing(sqlite3.connect(copy)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)


def test_the_guards_are_on_again(keeper: Keeper) -> None:
    with (
        closing(sqlite3.connect(keeper.path)) as connection,
        pytest.raises(sqlite3.IntegrityError, match="append-only"),
    ):
        connection.execute("UPDATE event SET data = '{}' WHERE kind = 'mated'")


def test_check_finds_the_file_sound(keeper: Keeper) -> None:
    told = keeper.json("--no-plugins", "file", "check")
    assert told["ok"], told


def test_steps_of_the_first_build_are_undone_and_redone(
    keeper: Keeper, before: dict[str, list[Row]]
) -> None:
    """All of them, the newest first, until nothing is left that a step wrote."""
    once = tables(keeper.path)
    undone = 0
    while keeper.run("undo", "--yes", ok=False).code == 0:
        undone += 1
    assert undone == sum(s["kind"] == "do" and not s["undone_by"] for s in before["step"])
    empty = tables(keeper.path)
    for table in ("animal", "enclosure", "event", "parentage"):
        assert empty[table] == []
    for _ in range(undone):
        keeper.run("redo")
    again = tables(keeper.path)
    for table in ("animal", "enclosure", "event", "parentage", "rhythm_interval"):
        assert rows_of(again[table]) == rows_of(once[table]), table


def rows_of(rows: list[Row]) -> Counter[str]:
    return Counter(json.dumps(r, sort_keys=True) for r in rows)
