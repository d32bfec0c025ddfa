"""The archive holds everything, is readable without us, and gives the same collection back."""

from __future__ import annotations

import json
import sqlite3
import tracemalloc
import zipfile
from contextlib import closing
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from built_once import restored
from readings import READINGS, make_tables, own_version, readings
from warmside.core.file.archives import writing as archive
from warmside.core.file.state import read_state
from warmside.core.values.errors import BadInput
from warmside.testing import Keeper, copy_of, new_keeper

TEXT = st.text(st.characters(codec="utf-8"), max_size=30)


def contents(path: Path) -> dict[str, list[tuple[object, ...]]]:
    """Every table with its rows as they are stored, and the schema."""
    with closing(sqlite3.connect(path)) as connection:
        found = {
            name: connection.execute(f'SELECT * FROM "{name}" NOT INDEXED').fetchall()
            for name in archive.table_names(connection)
        }
        schema = "SELECT type, name, tbl_name, sql FROM sqlite_schema WHERE name NOT LIKE 'sqlite%'"
        found["the schema"] = sorted(connection.execute(schema).fetchall())
    return found


def lived_in(folder: Path) -> Keeper:
    """A collection with a row in every corner: undone, corrected, a plugin's, odd text."""
    keeper = new_keeper(folder, plugins=["rhythm"])
    for words in (
        ("enclosure", "add", "Shelf", "--room", "Attic", "--width", "120cm"),
        ("animal", "add", 'Émber «♀» "x"', "--species", "ball python", "--enclosure", "SHE"),
        ("animal", "add", "Ash", "--species", "ball python", "--ancestor"),
        ("animal", "parents", "EMB", "--dam", "ASH"),
        ("record", "weighed", "EMB=412g", "--at", "08:30"),
        ("correct", "2", "mass=421g"),
        ("record", "fed", "EMB", "--item", "mouse; 'quoted'\nsecond line"),
        ("undo",),
        ("rhythm", "set", "weighed", "--every", "30"),
    ):
        keeper.run(*words)
    return keeper


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    return lived_in(tmp_path_factory.mktemp("whole"))


def test_what_is_imported_equals_what_was_exported(whole: Keeper, tmp_path: Path) -> None:
    whole.run("file", "export", str(tmp_path / "all.zip"))
    new = Keeper(tmp_path / "new.warmside", whole.now)
    new.run("file", "import", str(tmp_path / "all.zip"))
    assert contents(new.path) == contents(whole.path)
    assert read_state(new.path) == read_state(whole.path)
    checks = new.run("file", "check", "--json", ok=False).json["checks"]
    assert [check["problem"] for check in checks].count("none") > 5
    for words in (("today",), ("history",), ("animal", "list", "--all"), ("undo", "--list")):
        assert new.run(*words) == whole.run(*words)


def test_an_imported_collection_goes_on_like_the_old_one(whole: Keeper, tmp_path: Path) -> None:
    """Numbers of undone events stay taken, and undo and redo work across the archive."""
    whole.run("file", "export", str(tmp_path / "all.zip"))
    new = Keeper(tmp_path / "new.warmside", whole.now)
    new.run("file", "import", str(tmp_path / "all.zip"))
    old = copy_of(whole, tmp_path / "old", alone=True)
    for words in (
        ("undo",),
        ("redo",),
        ("record", "observed", "EMB", "--what", "calm"),
        ("undo",),
        ("record", "observed", "EMB", "--what", "calm again"),
        ("undo",),
        ("redo",),
        ("history",),
    ):
        assert new.run(*words) == old.run(*words)
    found, wanted = contents(new.path), contents(old.path)
    for each in (found, wanted):
        del each["touched"]  # stamps, each used once
        each["seal"] = [row for row in each["seal"] if row[0] != "touched"]
    assert found == wanted


def test_a_table_beyond_what_a_plain_zip_holds_travels_too(
    whole: Keeper, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The limit is 2 GB a member; here a kilobyte stands for it."""
    monkeypatch.setattr("zipfile.ZIP64_LIMIT", 1000)
    whole.run("file", "export", str(tmp_path / "all.zip"))
    new = Keeper(tmp_path / "new.warmside", whole.now)
    new.run("file", "import", str(tmp_path / "all.zip"))
    assert contents(new.path) == contents(whole.path)


def test_exporting_twice_gives_the_same_rows(whole: Keeper, tmp_path: Path) -> None:
    texts = []
    for name in ("one.zip", "two.zip"):
        whole.run("file", "export", str(tmp_path / name))
        with zipfile.ZipFile(tmp_path / name) as zipped:
            texts.append({n: zipped.read(n) for n in zipped.namelist()})
    assert texts[0] == texts[1]


def test_the_archive_explains_itself_and_reads_as_json_lines(whole: Keeper, tmp_path: Path) -> None:
    whole.run("file", "export", str(tmp_path / "all.zip"))
    with zipfile.ZipFile(tmp_path / "all.zip") as zipped:
        readme = zipped.read("README.txt").decode()
        about = json.loads(zipped.read("archive.json"))
        lines = zipped.read("tables/animal.jsonl").decode().splitlines()
        schema = zipped.read("schema.sql").decode()
    assert "tables/*.jsonl" in readme
    assert "grams" in readme
    assert about["rows"]["animal"] == 2
    assert {json.loads(line)["name"] for line in lines} == {'Émber «♀» "x"', "Ash"}
    with closing(sqlite3.connect(":memory:")) as plain:  # anyone can build the tables
        plain.executescript(schema)


def test_tables_of_a_plugin_that_vanished_travel(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    keeper = lived_in(tmp_path)
    kept = contents(keeper.path)
    gone = {"rhythm": "warmside_vanished_plugin:MANIFEST"}
    monkeypatch.setattr("warmside.core.plugins.discovery.BUILT_IN", gone)
    monkeypatch.setattr("warmside.core.plugins.discovery.installed", lambda: {})
    listed = keeper.run("animal", "list")
    assert "plugin rhythm failed in loading" in listed.stderr
    keeper.run("file", "export", str(tmp_path / "all.zip"))
    new = Keeper(tmp_path / "new.warmside", keeper.now)
    new.run("file", "import", str(tmp_path / "all.zip"))
    assert contents(new.path) == kept
    monkeypatch.undo()
    assert new.json("rhythm", "list")["rhythms"][0]["every_days"] == 30


def test_export_and_import_overwrite_nothing(whole: Keeper, tmp_path: Path) -> None:
    target = tmp_path / "all.zip"
    whole.run("file", "export", str(target))
    assert whole.run("file", "export", str(target), ok=False).code == 4
    assert whole.run("file", "import", str(target), ok=False).code == 4


def rewritten(source: Path, target: Path, name: str, data: bytes | None) -> None:
    """A copy of an archive with one member replaced or left out."""
    with zipfile.ZipFile(source) as old, zipfile.ZipFile(target, "w") as new:
        for member in old.namelist():
            if member != name:
                new.writestr(member, old.read(member))
            elif data is not None:
                new.writestr(member, data)


@pytest.mark.parametrize(
    ("name", "data"),
    [
        ("archive.json", None),
        ("archive.json", b"{}"),
        ("archive.json", b"not json"),
        ("schema.sql", b""),
        ("schema.sql", b"DROP TABLE nothing;"),
        ("tables/event.jsonl", None),
        ("tables/event.jsonl", b""),
        ("tables/event.jsonl", b"{half a line"),
        ("tables/animal.jsonl", b""),
    ],
)
def test_a_broken_archive_makes_no_file(
    whole: Keeper, tmp_path: Path, name: str, data: bytes | None
) -> None:
    whole.run("file", "export", str(tmp_path / "all.zip"))
    rewritten(tmp_path / "all.zip", tmp_path / "bad.zip", name, data)
    new = Keeper(tmp_path / "new.warmside", whole.now)
    refused = new.run("file", "import", str(tmp_path / "bad.zip"), ok=False)
    assert refused.code == 2
    assert refused.stderr.count("\n") == 1
    assert "no whole archive" in refused.stderr
    assert sorted(p.name for p in tmp_path.iterdir()) == ["all.zip", "bad.zip"]


def test_half_an_archive_or_none_makes_no_file(whole: Keeper, tmp_path: Path) -> None:
    whole.run("file", "export", str(tmp_path / "all.zip"))
    half = tmp_path / "half.zip"
    half.write_bytes((tmp_path / "all.zip").read_bytes()[:2000])
    new = Keeper(tmp_path / "new.warmside", whole.now)
    assert new.run("file", "import", str(half), ok=False).code == 2
    missing = new.run("file", "import", str(tmp_path / "none.zip"), ok=False)
    assert "there is no file" in missing.stderr
    assert not new.path.exists()


def test_references_that_lead_nowhere_are_refused(whole: Keeper, tmp_path: Path) -> None:
    whole.run("file", "export", str(tmp_path / "all.zip"))
    with zipfile.ZipFile(tmp_path / "all.zip") as zipped:
        lines = [json.loads(x) for x in zipped.read("tables/animal.jsonl").splitlines()]
    lines[0]["species_id"] = 9999
    data = "\n".join(json.dumps(x) for x in lines).encode()
    rewritten(tmp_path / "all.zip", tmp_path / "bad.zip", "tables/animal.jsonl", data)
    with pytest.raises(BadInput, match="references between its tables are broken"):
        restored(tmp_path / "bad.zip", tmp_path / "new.warmside")


@settings(
    max_examples=15,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(
    st.lists(
        st.tuples(
            TEXT,
            st.integers(-(2**63), 2**63 - 1) | st.none(),
            st.floats(allow_nan=False, allow_infinity=False) | st.none(),
        ),
        max_size=5,
    )
)
def test_any_value_of_a_plugin_comes_back(
    keeper: Keeper, rows: list[tuple[str, int | None, float | None]]
) -> None:
    folder = keeper.path.parent
    with closing(sqlite3.connect(keeper.path)) as connection, connection:
        connection.execute("DROP TABLE IF EXISTS odd_value")
        connection.execute("DROP TABLE IF EXISTS schema_version_odd")
        connection.execute("CREATE TABLE odd_value (words TEXT, number INTEGER, size REAL)")
        connection.executemany("INSERT INTO odd_value VALUES (?, ?, ?)", rows)
    own_version(keeper.path, "odd")
    target, new = folder / "all.zip", folder / "new.warmside"
    archive.export(keeper.path, target, keeper.now)
    restored(target, new)
    assert contents(new) == contents(keeper.path)
    new.unlink()


def with_readings(keeper: Keeper, rows: int) -> None:
    """A table of the kind that a plugin with many rows has."""
    with closing(sqlite3.connect(keeper.path)) as connection, connection:
        connection.execute(
            "CREATE TABLE logger_reading (at INTEGER, value REAL, sensor TEXT, "
            "fahrenheit REAL AS (value * 1.8 + 32), PRIMARY KEY (sensor, at)) WITHOUT ROWID"
        )
        connection.executemany(
            "INSERT INTO logger_reading VALUES (?, ?, ?)",
            [(n // 2, n / 7, "ba"[n % 2]) for n in range(rows)],
        )
    own_version(keeper.path, "logger")


def test_a_table_without_rowid_travels_in_the_order_of_its_key(
    keeper: Keeper, tmp_path: Path
) -> None:
    with_readings(keeper, 10)
    archive.export(keeper.path, tmp_path / "all.zip", keeper.now)
    restored(tmp_path / "all.zip", tmp_path / "new.warmside")
    kept = contents(keeper.path)
    assert contents(tmp_path / "new.warmside") == kept
    assert len(kept["logger_reading"]) == 10
    with zipfile.ZipFile(tmp_path / "all.zip") as zipped:
        lines = zipped.read("tables/logger_reading.jsonl").splitlines()
    keys = [(row["sensor"], row["at"]) for row in map(json.loads, lines)]
    assert keys == sorted(keys)


def test_a_series_goes_on_in_the_new_file(keeper: Keeper, tmp_path: Path) -> None:
    """Rows in force and on the shelf, guards, undo and redo across the archive."""
    make_tables(keeper.path, sensors=4)
    for number, sensors in ((8, 2), (12, 4), (10, 2)):
        with keeper.open().step("read the logger", keeper.now) as writer:
            writer.insert_many(READINGS, readings(number, sensors), on_same="skip")
    keeper.run("undo")
    keeper.run("file", "export", str(tmp_path / "all.zip"))
    new = Keeper(tmp_path / "new.warmside", keeper.now)
    new.run("file", "import", str(tmp_path / "all.zip"))
    assert contents(new.path) == contents(keeper.path)
    rows = contents(new.path)
    assert (len(rows["logger_reading"]), len(rows["logger_reading_shelf"])) == (14, 2)
    for deed in ("redo", "undo", "undo", "redo"):
        assert new.run(deed) == keeper.run(deed)
        assert contents(new.path)["logger_reading"] == contents(keeper.path)["logger_reading"]


def test_rows_stream_in_both_directions(keeper: Keeper, tmp_path: Path) -> None:
    """All 20,000 rows at once would take 10 MB and more."""
    with_readings(keeper, 20_000)
    for work in (
        lambda: archive.export(keeper.path, tmp_path / "all.zip", keeper.now),
        lambda: restored(tmp_path / "all.zip", tmp_path / "new.warmside"),
    ):
        tracemalloc.start()
        work()
        _, peak = tracemalloc.get_traced_memory()
        tracemalloc.stop()
        assert peak < 2e6


def test_a_place_that_cannot_be_written_is_said_in_one_line(whole: Keeper, tmp_path: Path) -> None:
    (tmp_path / "letter.txt").write_text("no folder")
    target = str(tmp_path / "letter.txt" / "all.zip")
    refused = whole.run("file", "export", target, ok=False)
    assert (refused.code, refused.stderr.count("\n")) == (5, 1)
    assert "cannot write" in refused.stderr


def test_what_is_wrong_in_an_archive_is_said_when_it_is_read(whole: Keeper, tmp_path: Path) -> None:
    """A stranger's, or one whose file had rotted: its rows are taken, and none is trusted."""
    whole.run("file", "export", str(tmp_path / "all.zip"))
    with (
        zipfile.ZipFile(tmp_path / "all.zip") as sound,
        zipfile.ZipFile(tmp_path / "changed.zip", "w") as changed,
    ):
        for name in sound.namelist():
            changed.writestr(name, sound.read(name).replace(b"421", b"471"))
    new = Keeper(tmp_path / "new.warmside", whole.now)
    told = new.run("file", "import", str(tmp_path / "changed.zip")).stderr
    assert "needs attention" in told and "changed since: event" in told
    assert "needs attention" in new.run("history").stderr
