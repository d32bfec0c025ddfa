"""Archives of strangers: whatever they try, they are refused in a line and nothing else changes."""

from __future__ import annotations

import sqlite3
import sys
from contextlib import closing
from pathlib import Path

import pytest

from built_once import restored
from crafted_archives import CRAFTED, Members, lamp_rows, members_of
from warmside.core.values.errors import BadInput
from warmside.testing import Keeper, copy_of, new_keeper

MOST_MEMORY = 200 << 20  # bytes


@pytest.fixture(scope="module")
def other(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """The keeper's own collection, from which nobody may take anything."""
    keeper = new_keeper(tmp_path_factory.mktemp("other"), plugins=["rhythm"])
    keeper.run("enclosure", "add", "Shelf")
    keeper.run("animal", "add", "Ember", "--species", "ball python", "--enclosure", "SHE")
    keeper.run("file", "export", str(keeper.path.with_name("all.zip")))
    return keeper


@pytest.fixture(scope="module")
def honest(other: Keeper) -> Members:
    """The members of an archive that is as it should be."""
    return members_of(other.path.with_name("all.zip"))


@pytest.mark.parametrize("name", CRAFTED)
def test_a_crafted_archive_is_refused_in_a_line_and_changes_nothing(
    other: Keeper, honest: Members, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    make, told = CRAFTED[name]
    beside = copy_of(other, tmp_path, alone=True).path.rename(tmp_path / "other.warmside")
    make(honest, tmp_path / "crafted.zip")
    monkeypatch.chdir(tmp_path)
    before = {p.name: p.read_bytes() for p in tmp_path.iterdir()}
    with pytest.raises(BadInput) as refused:
        restored(tmp_path / "crafted.zip", tmp_path / "new.warmside")
    assert told in str(refused.value)
    assert "\n" not in str(refused.value)
    assert {p.name: p.read_bytes() for p in tmp_path.iterdir()} == before
    assert beside.exists()


def test_the_corpus_is_large() -> None:
    assert len(CRAFTED) >= 40


@pytest.mark.skipif(sys.platform != "linux", reason="peak memory is told in KiB there")
def test_no_crafted_archive_takes_much_memory(
    other: Keeper, honest: Members, tmp_path: Path
) -> None:
    """The largest ones, in a program of their own whose peak is asked for at its end."""
    targets = []
    for number, name in enumerate(
        ("spaces without end", "a schema without end", "a row without end", "values that double",
         "deeply nested", "more members than can be", "members that overlap"),
    ):  # fmt: skip
        targets.append(tmp_path / f"{number}.zip")
        CRAFTED[name][0](honest, targets[-1])
    process = other.start(*map(str, targets), program=("-c", PEAK))
    out, err = process.communicate()
    assert process.returncode == 0, err
    assert int(out) * 1024 < MOST_MEMORY


PEAK = r"""
import re, sys
from pathlib import Path
from warmside.cli.built_tables import make_tables
from warmside.core.file.archives import reading
from warmside.core.values.errors import BadInput
for name in sys.argv[1:]:
    try:
        reading.restore(Path(name), Path(name).with_suffix(".warmside"), make_tables)
    except BadInput:
        pass
    else:
        sys.exit(name)
print(re.search(r"VmHWM:\s+(\d+) kB", Path("/proc/self/status").read_text())[1])
"""


def test_the_refusal_is_one_line_of_the_command(
    other: Keeper, honest: Members, tmp_path: Path
) -> None:
    CRAFTED["trigger on animals"][0](honest, tmp_path / "crafted.zip")
    new = Keeper(tmp_path / "new.warmside", other.now)
    line = new.run("file", "import", str(tmp_path / "crafted.zip"), ok=False).complaint(2)
    assert "trigger t on event" in line
    assert not new.path.exists()


def test_an_absent_plugins_table_is_taken_with_all_that_a_plugin_may_declare(
    honest: Members, tmp_path: Path
) -> None:
    """Checks, computed columns and references are no crime."""
    columns = (
        "id INTEGER PRIMARY KEY, day TEXT CHECK (date(day, '+0 days') = day), "
        "animal_id INTEGER REFERENCES animal (id) ON DELETE CASCADE, half REAL AS (id / 2.0)"
    )
    line = b'{"id": 3, "day": "2026-03-05", "animal_id": 1}\n'
    lamp_rows(columns, line)(honest, tmp_path / "fine.zip")
    restored(tmp_path / "fine.zip", tmp_path / "new.warmside")
    with closing(sqlite3.connect(tmp_path / "new.warmside")) as connection:
        found = connection.execute("SELECT * FROM lamps_lamp").fetchall()
    assert found == [(3, "2026-03-05", 1, 1.5)]
