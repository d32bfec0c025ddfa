"""What can still be read of a damaged file, and what copies hold more, makes a new one."""

from __future__ import annotations

import random
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from built_once import made_once
from warmside.cli import built_tables
from warmside.core.file.copies import backup
from warmside.core.file.recovery.pages import Pages
from warmside.testing import Keeper, copy_of, new_keeper

LONG = "a long note " * 900  # over several pages


@pytest.fixture(autouse=True)
def _built_once(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(built_tables, "make_tables", made_once)


@pytest.fixture(scope="module")
def full(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """500 meals and a long note, of which the copy of yesterday has all but the last."""
    keeper = new_keeper(tmp_path_factory.mktemp("full"), plugins=["rhythm"])
    keeper.run("animal", "add", "Ember", "--species", "ball python")
    table = keeper.path.with_name("meals.csv")
    lines = [f"2025-{1 + n % 12:02}-{1 + n % 28:02} 08:{n % 60:02},EMB,mouse" for n in range(500)]
    table.write_text("\n".join(["date,animal,item", *sorted(set(lines))]) + "\n")
    keeper.run("import", table, "--kind", "fed", "--date-format", "YYYY-MM-DD HH:mm")
    keeper.run("record", "observed", "EMB", "--what", "calm", "--note", LONG)
    keeper.pass_days(1)
    keeper.run("record", "weighed", "EMB=410g")
    return keeper


@pytest.fixture
def mine(full: Keeper, tmp_path: Path) -> Keeper:
    keeper = copy_of(full, tmp_path, alone=True)
    for copy in backup.all_of(full.path):
        backup.make(copy, backup.folder_of(keeper.path) / copy.name)
    return keeper


def rows(path: Path, table: str) -> list[tuple[object, ...]]:
    with closing(sqlite3.connect(path)) as connection:
        return connection.execute(f'SELECT * FROM "{table}" ORDER BY 1').fetchall()


def root_of(path: Path, name: str) -> int:
    with closing(sqlite3.connect(path)) as connection:
        query = "SELECT rootpage FROM sqlite_schema WHERE name = ?"
        return int(connection.execute(query, (name,)).fetchone()[0])


@pytest.mark.parametrize("table", ["event", "species", "animal", "step", "change"])
def test_our_own_reading_gives_what_sqlite_gives(full: Keeper, table: str) -> None:
    """Outside check: SQLite itself, over interior pages and overflowing rows."""
    pages = Pages(full.path.read_bytes())
    found = {r.rowid: r.values for r in pages.rows(root_of(full.path, table))}
    wanted = {r[0]: r for r in rows(full.path, table)}
    assert found.keys() == wanted.keys()
    for rowid, values in found.items():
        given = (rowid, *values[1:])
        assert given == wanted[rowid][: len(given)]


def test_a_file_without_its_first_page_is_recovered_whole(mine: Keeper) -> None:
    wanted = rows(mine.path, "event")
    with mine.path.open("r+b") as file:
        file.write(b"\xff" * 4096)
    said = mine.run("file", "recover", mine.path.with_name("saved.warmside"))
    assert "0 rows were missing" in " ".join(said.stdout.split())
    saved = Keeper(mine.path.with_name("saved.warmside"), mine.now)
    assert [r[:8] for r in rows(saved.path, "event")] == [r[:8] for r in wanted]
    assert saved.json("file", "check")["ok"] is True
    saved.run("record", "weighed", "EMB=412g")


def test_lost_pages_are_filled_from_copies_and_what_is_missing_is_listed(mine: Keeper) -> None:
    """Random pages are overwritten; what was recorded since the copy is in none."""
    before = {r[0] for r in rows(mine.path, "event")}
    content = bytearray(mine.path.read_bytes())
    draw = random.Random(4)
    for page in draw.sample(range(2, len(content) // 4096), 12):
        content[page * 4096 : (page + 1) * 4096] = draw.randbytes(4096)
    mine.path.write_bytes(content)
    told = mine.json("file", "recover", mine.path.with_name("saved.warmside"))
    saved = Keeper(mine.path.with_name("saved.warmside"), mine.now)
    after = {r[0] for r in rows(saved.path, "event")}
    assert len(before - after) <= 1
    assert sum(r["from_copies"] for r in told["recovered"]) > 0
    assert saved.run("animal", "list").stdout.count("Ember") == 1
    assert saved.run("file", "check", ok=False).code in (0, 5)


def test_a_changed_event_comes_from_the_copy(mine: Keeper) -> None:
    with closing(sqlite3.connect(mine.path)) as connection, connection:
        connection.execute("DROP TRIGGER event_is_append_only")
        connection.execute("UPDATE event SET data = replace(data, 'mouse', 'house') WHERE id = 9")
    mine.run("file", "recover", mine.path.with_name("saved.warmside"))
    texts = str(rows(mine.path.with_name("saved.warmside"), "event"))
    assert "house" not in texts


def test_nothing_is_overwritten_and_nothing_to_go_by_is_said(mine: Keeper, tmp_path: Path) -> None:
    line = mine.run("file", "recover", mine.path, ok=False).complaint(4)
    assert "is there already" in line
    for copy in backup.all_of(mine.path):
        copy.unlink()
    mine.path.write_bytes(b"\xff" * 100_000)
    line = mine.run("file", "recover", tmp_path / "saved.warmside", ok=False).complaint(5)
    assert "says how its tables are made" in line
    assert not (tmp_path / "saved.warmside").exists()


@pytest.fixture(scope="module")
def moved_on(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """What is damaged today is not as in the copy: changed, corrected, taken back, removed."""
    keeper = new_keeper(tmp_path_factory.mktemp("moved"), plugins=["rhythm"])
    for words in (
        ("enclosure", "add", "Shelf"),
        ("enclosure", "add", "Bench"),
        ("animal", "add", "Ember", "--species", "ball python", "--enclosure", "SHE"),
        ("record", "weighed", "EMB=410g"),
        ("record", "weighed", "EMB=999g", "--confirm"),
        ("rhythm", "set", "weighed", "--every", "30"),
    ):
        keeper.run(*words)
    keeper.pass_days(1)
    for words in (
        ("animal", "change", "EMB", "--note", "shy"),
        ("correct", "2", "mass=415g"),
        ("undo", "6"),
        ("rhythm", "set", "weighed", "--every", "20"),
        ("animal", "add", "Ash", "--species", "ball python", "--enclosure", "BEN"),
        ("record", "fed", "ASH", "--item", "mouse"),
        ("record", "observed", "EMB", "--what", "calm"),
    ):
        keeper.run(*words)
    return keeper


TABLES = (
    *("animal", "change", "collection", "enclosure", "event", "event_shelf", "plugin_state"),
    *("rhythm_interval", "seal", "species", "step", "touched"),
)


def overwritten(full: Keeper, folder: Path, table: str) -> Keeper:
    """A copy of a keeper's files with all pages of one table overwritten."""
    keeper = copy_of(full, folder, alone=True)
    for copy in backup.all_of(full.path):
        backup.make(copy, backup.folder_of(keeper.path) / copy.name)
    root = root_of(keeper.path, table)
    content = bytearray(keeper.path.read_bytes())
    content[(root - 1) * 4096 : root * 4096] = b"\xff" * 4096
    keeper.path.write_bytes(content)
    return keeper


@pytest.mark.parametrize("table", TABLES)
def test_what_changed_since_the_copy_is_done_again_and_the_new_file_is_sound(
    moved_on: Keeper, tmp_path: Path, table: str
) -> None:
    keeper = overwritten(moved_on, tmp_path, table)
    told = keeper.json("file", "recover", tmp_path / "saved.warmside")
    saved = Keeper(tmp_path / "saved.warmside", keeper.now)
    assert saved.json("file", "check")["ok"] is True
    lost = {s["step"] for s in told.get("not_whole", [])}
    if table not in ("event", "step", "change"):
        assert not lost
        for words in (("history",), ("animal", "list"), ("rhythm", "list"), ("undo", "--list")):
            assert saved.run(*words) == moved_on.run(*words)
    masses = [e["data"]["mass_g"] for e in saved.json("history", "--kind", "weighed")["events"]]
    assert 999 not in masses, "a step that was taken back is not in force again"


def test_what_is_nowhere_is_told_by_the_words_of_its_step(moved_on: Keeper, tmp_path: Path) -> None:
    """Of the events of today no copy knows: those steps are named, all else is there."""
    keeper = overwritten(moved_on, tmp_path, "event")
    told = keeper.run("file", "recover", tmp_path / "saved.warmside").stdout
    assert "4 steps are not whole any more" in told and "record again what is missing" in told
    for words in ("corrected", "Ash", "fed", "observed"):
        assert words in told
    saved = Keeper(tmp_path / "saved.warmside", keeper.now)
    assert "410 g" in saved.run("history").stdout, "its correction is gone, and it stands again"
    assert "Ash" in saved.run("animal", "list", "--all").stdout


def test_a_step_that_is_gone_takes_nothing_with_it(moved_on: Keeper, tmp_path: Path) -> None:
    keeper = overwritten(moved_on, tmp_path, "step")
    keeper.run("file", "recover", tmp_path / "saved.warmside")
    saved = Keeper(tmp_path / "saved.warmside", keeper.now)
    assert "fed" in saved.run("history").stdout
    assert "a step whose words were lost" in saved.run("undo", "--list").stdout


def test_an_animal_whose_species_is_nowhere_is_kept_and_no_species_is_guessed(
    moved_on: Keeper, tmp_path: Path
) -> None:
    keeper = overwritten(moved_on, tmp_path, "species")
    for copy in backup.all_of(keeper.path):
        copy.unlink()
    told = keeper.run("file", "recover", tmp_path / "saved.warmside").stdout
    assert "1 species has lost its name" in told and "animal change CODE --species" in told
    saved = Keeper(tmp_path / "saved.warmside", keeper.now)
    assert saved.json("file", "check")["ok"] is True
    assert "whose name was lost" in saved.run("animal", "show", "EMB").stdout
    assert "415 g" in saved.run("history").stdout
    saved.run("species", "add", "Python regius")
    saved.run("animal", "change", "EMB", "--species", "Python regius")


@pytest.mark.parametrize("seed", range(8))
def test_whatever_pages_are_struck_the_new_file_is_sound(
    moved_on: Keeper, tmp_path: Path, seed: int
) -> None:
    """Zeros, noise or another page in the place of some: never a crash, never a rotten file."""
    keeper = overwritten(moved_on, tmp_path, "touched")
    draw, content = random.Random(seed), bytearray(keeper.path.read_bytes())
    places = range(1, len(content) // 4096)
    for page in draw.sample(places, draw.choice([1, 2, 4, 8])):
        other = draw.choice(places) * 4096
        swapped = bytes(content[other : other + 4096])
        struck = draw.choice([bytes(4096), draw.randbytes(4096), swapped])
        content[page * 4096 : (page + 1) * 4096] = struck
    keeper.path.write_bytes(content)
    checked = keeper.run("file", "check", ok=False)
    assert checked.code == 5 and "look with" not in checked.stderr
    keeper.run("file", "recover", tmp_path / "saved.warmside")
    saved = Keeper(tmp_path / "saved.warmside", keeper.now)
    assert saved.json("file", "check")["ok"] is True
    assert "999 g" not in saved.run("history").stdout


def struck_rows(full: Keeper, folder: Path, *statements: str) -> Keeper:
    """A copy of a keeper's files, changed by another program."""
    keeper = copy_of(full, folder, alone=True)
    for copy in backup.all_of(full.path):
        backup.make(copy, backup.folder_of(keeper.path) / copy.name)
    with closing(sqlite3.connect(keeper.path)) as connection:
        for statement in statements:
            connection.execute(statement)
        connection.commit()
    return keeper


@pytest.mark.parametrize(
    "rot",
    [
        "UPDATE species SET grp = 'lizaFd' WHERE id = 7",
        "INSERT INTO species SELECT id + 1000, scientific || '!', '', 'x', 'y' FROM species",
        "UPDATE collection SET identity = '7', name = 'grey'",
        "UPDATE change SET after = replace(after, '{', '~') WHERE step_id = 3",
        "UPDATE step SET words = 'added nobody' WHERE id = 3",
        "UPDATE change SET step_id = 1234567890 WHERE step_id = 3",
        "INSERT INTO seal VALUES ('noise', 'noise')",
    ],
)
def test_rows_that_can_be_read_and_are_not_what_was_written_come_from_the_copy(
    moved_on: Keeper, tmp_path: Path, rot: str
) -> None:
    keeper = struck_rows(moved_on, tmp_path, rot)
    told = keeper.json("file", "recover", tmp_path / "saved.warmside")
    saved = Keeper(tmp_path / "saved.warmside", keeper.now)
    assert saved.json("file", "check")["ok"] is True
    assert "not_whole" not in told
    for table in ("species", "collection", "step", "change", "animal", "event"):
        assert rows(saved.path, table) == rows(moved_on.path, table)


def test_what_a_step_of_today_changed_is_left_out_where_nothing_can_be_made_of_it(
    moved_on: Keeper, tmp_path: Path
) -> None:
    """The newest step that changed rows is in no copy; it is said to be not whole."""
    last = "(SELECT max(step_id) FROM change)"
    keeper = struck_rows(moved_on, tmp_path, f"UPDATE change SET key = '~' WHERE step_id = {last}")
    told = keeper.json("file", "recover", tmp_path / "saved.warmside")
    assert len(told["not_whole"]) == 1
    saved = Keeper(tmp_path / "saved.warmside", keeper.now)
    assert saved.json("file", "check")["ok"] is True
    assert saved.run("animal", "list").stdout == moved_on.run("animal", "list").stdout


@pytest.mark.parametrize("words", [("today",), ("file", "check"), ("history",)])
def test_damage_in_the_name_of_a_table_is_told_as_damage(
    mine: Keeper, tmp_path: Path, words: tuple[str, ...]
) -> None:
    """SQLite's own complaint names the table, in letters that are none any more."""
    content = mine.path.read_bytes()
    place = content.index(b"CREATE TABLE species")
    mine.path.write_bytes(content[:place] + b"\xf8\xff" + content[place + 2 :])
    line = mine.run(*words, ok=False).stderr
    assert line.startswith("warmside: ") and "damaged" in line and "a fault in" not in line
    mine.run("file", "recover", tmp_path / "saved.warmside")
    saved = Keeper(tmp_path / "saved.warmside", mine.now)
    assert saved.json("file", "check")["ok"] is True
