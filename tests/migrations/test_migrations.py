"""Every owner's revisions lead to the tables that its code declares, and old files come along."""

from __future__ import annotations

import sqlite3
import sys
from collections.abc import Iterator
from contextlib import closing
from importlib import import_module, invalidate_caches
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import Engine

from warmside.core.file import sqlite
from warmside.core.file.state import read_state
from warmside.core.plugins.discovery import BUILT_IN, manifest_of
from warmside.core.plugins.manifest import RESERVED, Manifest
from warmside.core.record.guards import EVENT_GUARDS, is_guard
from warmside.core.record.owners import CORE_TABLES, owner_of
from warmside.core.record.tables import metadata
from warmside.core.values.errors import FileProblem
from warmside.migrations import CORE, Lineage, lineage_of, outdated, runner
from warmside.testing import Keeper, new_keeper, throw_away_plugin
from warmside.testing.schema_facts import facts


def owners() -> Iterator[tuple[Lineage, str]]:
    """Each lineage with the module that declares its tables."""
    yield CORE, "warmside.core.record.tables"
    for name in BUILT_IN:
        manifest = manifest_of(name)
        lineage = lineage_of(manifest)
        if lineage is not None:
            yield lineage, str(manifest.tables)


OWNERS = list(owners())
EACH = pytest.mark.parametrize(("lineage", "tables"), OWNERS, ids=[x.owner for x, _ in OWNERS])


@pytest.fixture
def engine(keeper: Keeper) -> Engine:
    """A file with the tables of the core and of every built-in plugin."""
    engine = sqlite.open_engine(keeper.path)
    runner.upgrade(engine, [lineage for lineage, _ in OWNERS])
    return engine


@EACH
def test_a_lineage_has_one_head_which_its_constant_names(lineage: Lineage, tables: str) -> None:
    assert runner.script(lineage).get_heads() == [lineage.head]
    bases = runner.script(lineage).get_bases()
    assert len(bases) == 1, "one beginning"


@EACH
def test_declared_tables_agree_with_the_revisions(
    engine: Engine, lineage: Lineage, tables: str
) -> None:
    assert runner.differences(engine, lineage, tables) == []


@pytest.mark.parametrize("name", sorted(BUILT_IN))
def test_a_plugin_with_tables_says_all_about_them(name: str) -> None:
    manifest = manifest_of(name)
    parts = (manifest.tables, manifest.migrations, manifest.head)
    assert all(parts) or not any(parts)
    if manifest.head:
        assert manifest.head.startswith(name)


@EACH
def test_the_migrated_schema_is_the_declared_one_in_every_fact(
    engine: Engine, tmp_path: Path, lineage: Lineage, tables: str
) -> None:
    for _, module in OWNERS:
        import_module(module)
    own = {t.name for t in metadata.sorted_tables if owner_of(t.name) == lineage.owner}
    fresh = sqlite.open_engine(tmp_path / "fresh.warmside")
    metadata.create_all(fresh, tables=[t for t in metadata.sorted_tables if t.name in own])
    assert own
    assert facts(engine, own) == facts(fresh, own)


def test_the_comparison_sees_what_alembic_does_not(engine: Engine, tmp_path: Path) -> None:
    changed = tmp_path / "changed.warmside"
    with closing(sqlite3.connect(changed)) as connection:
        connection.executescript(
            "CREATE TABLE a (id INTEGER PRIMARY KEY, n INTEGER CONSTRAINT c CHECK (n > 0));"
            "CREATE INDEX i ON a (n) WHERE n > 1;"
        )
    whole = facts(sqlite.open_engine(changed), {"a"})
    for old, new in (("n > 0", "n > 5"), ("WHERE n > 1", "WHERE n > 7")):
        other = tmp_path / f"other{new[-1]}.warmside"
        with closing(sqlite3.connect(changed)) as one, closing(sqlite3.connect(other)) as two:
            two.executescript("\n".join(one.iterdump()).replace(old, new))
        assert facts(sqlite.open_engine(other), {"a"}) != whole


def test_the_guards_of_the_file_are_those_of_the_code(engine: Engine) -> None:
    with engine.connect() as connection:
        query = "SELECT tbl_name, sql FROM sqlite_schema WHERE type = 'trigger' ORDER BY name"
        found = [(r[0], r[1]) for r in connection.exec_driver_sql(query)]
    of_series = [(table, sql) for table, sql in found if sql not in EVENT_GUARDS]
    assert [sql for _, sql in found if sql in EVENT_GUARDS] == sorted(EVENT_GUARDS)
    assert [table for table, _ in of_series] == ["habitat_reading", "habitat_reading"]
    assert all(is_guard(table, sql) for table, sql in of_series)


@EACH
def test_every_table_of_the_file_has_its_owner(
    engine: Engine, lineage: Lineage, tables: str
) -> None:
    import_module(tables)
    with engine.connect() as connection:
        names = {r[0] for r in connection.exec_driver_sql("PRAGMA main.table_list") if 0} | {
            r[1] for r in connection.exec_driver_sql("PRAGMA main.table_list") if r[2] == "table"
        }
    mine = {n for n in names if owner_of(n) == lineage.owner}
    declared = {t for t in metadata.tables if owner_of(t) == lineage.owner}
    versions = {n for n in names if n.startswith("schema_version_")}
    assert mine - versions - {"sqlite_schema", "sqlite_sequence"} == declared
    assert lineage.version_table in versions


@EACH
def test_foreign_keys_lead_to_core_tables_and_say_what_happens(
    engine: Engine, lineage: Lineage, tables: str
) -> None:
    """A plugin may refer to the core and to itself, never to another plugin."""
    import_module(tables)
    for table in metadata.sorted_tables:
        if owner_of(table.name) == lineage.owner:
            for key in table.foreign_keys:
                assert owner_of(key.column.table.name) in ("core", lineage.owner)
                assert key.ondelete in ("CASCADE", "RESTRICT", "SET NULL"), key


def test_no_plugin_can_have_the_name_of_a_core_table() -> None:
    first_words = {t.partition("_")[0] for t in CORE_TABLES if "_" in t}
    assert first_words <= RESERVED
    assert "core" in RESERVED


def test_a_file_that_is_up_to_date_is_known_without_alembic(engine: Engine, keeper: Keeper) -> None:
    manifests = [manifest_of(n) for n in BUILT_IN]
    assert outdated(read_state(keeper.path), manifests) == []
    new = manifest_of("rhythm")._replace(head="rhythm0003")
    assert [x.owner for x in outdated(read_state(keeper.path), [new])] == ["rhythm"]


def test_upgrading_twice_changes_nothing(engine: Engine, keeper: Keeper) -> None:
    before = dump(keeper.path)
    runner.upgrade(engine, [lineage for lineage, _ in OWNERS])
    assert dump(keeper.path) == before


# files from other versions


def dump(path: Path) -> list[str]:
    with closing(sqlite3.connect(path)) as connection:
        return list(connection.iterdump())


def set_revision(keeper: Keeper, owner: str, revision: str) -> None:
    with closing(sqlite3.connect(keeper.path)) as connection, connection:
        connection.execute(f"UPDATE schema_version_{owner} SET version_num = ?", (revision,))


@pytest.mark.parametrize("command", ["today", "animal list", "undo", "plugin enable rhythm"])
def test_a_file_from_a_newer_version_is_refused_untouched(keeper: Keeper, command: str) -> None:
    set_revision(keeper, "core", "c9999")
    before = dump(keeper.path)
    refused = keeper.run(*command.split(), ok=False)
    assert (refused.code, refused.stderr.count("\n")) == (5, 1)
    assert "was written by a newer version (core is at c9999); install that" in refused.stderr
    assert dump(keeper.path) == before


def test_tables_from_a_newer_plugin_leave_that_plugin_out(tmp_path: Path) -> None:
    keeper = new_keeper(tmp_path, plugins=["rhythm"])
    keeper.run("animal", "add", "Ember", "--species", "ball python")
    set_revision(keeper, "rhythm", "rhythm9999")
    before = dump(keeper.path)
    said = keeper.run("today")
    assert "Ember" in said.stdout
    assert said.stderr.startswith("warning: plugin rhythm failed in loading: ")
    assert "rhythm is at rhythm9999" in said.stderr
    assert dump(keeper.path) == before
    assert keeper.run("record", "weighed", "EMB=412g").code == 0


REVISIONS = (
    "op.execute('CREATE TABLE birch_leaf (id INTEGER PRIMARY KEY, n INTEGER)')",
    "op.execute('ALTER TABLE birch_leaf ADD COLUMN colour TEXT')",
)


def write_revisions(folder: Path, *bodies: str) -> None:
    """A plugin's lineage, one revision for each body."""
    for name in [m for m in sys.modules if m.partition(".")[0] == "birch_revisions"]:
        del sys.modules[name]  # of another test
    invalidate_caches()
    sys.modules.pop("birch_revisions", None)  # of an earlier test, in another folder
    package = folder / "birch_revisions"
    package.mkdir(exist_ok=True)
    (package / "__init__.py").touch()
    for number, body in enumerate(bodies, 1):
        down = f"'birch{number - 1:04}'" if number > 1 else None
        (package / f"birch{number:04}.py").write_text(
            f"from alembic import op\nrevision = 'birch{number:04}'\ndown_revision = {down}\n"
            f"def upgrade():\n    {body}\n"
        )


def birch(head: int, **more: Any) -> dict[str, Any]:
    return {"migrations": "birch_revisions", "head": f"birch{head:04}", **more}


@pytest.fixture
def grown(keeper: Keeper, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Keeper:
    """A file with a row in the first version of a plugin's table."""
    write_revisions(tmp_path, REVISIONS[0])
    monkeypatch.syspath_prepend(str(tmp_path))
    with throw_away_plugin("birch", manifest=birch(1)):
        keeper.run("plugin", "enable", "birch")
    with closing(sqlite3.connect(keeper.path)) as connection, connection:
        connection.execute("INSERT INTO birch_leaf VALUES (1, 7)")
    return keeper


def leaves(path: Path) -> list[tuple[Any, ...]]:
    with closing(sqlite3.connect(path)) as connection:
        return connection.execute("SELECT * FROM birch_leaf").fetchall()


def test_a_newer_plugin_brings_its_tables_along_after_a_backup(
    grown: Keeper, tmp_path: Path
) -> None:
    write_revisions(tmp_path, *REVISIONS)
    with throw_away_plugin("birch", manifest=birch(2)):
        said = grown.run("animal", "list")
        (line,) = said.stderr.splitlines()
        assert line.startswith("note: brought the tables of birch up to date; copy kept in ")
        copy = Path(line.partition("copy kept in ")[2])
        assert leaves(copy) == [(1, 7)]
        assert leaves(grown.path) == [(1, 7, None)]
        assert grown.run("animal", "list").stderr == ""


def test_a_plugin_whose_tables_cannot_come_along_is_left_out_and_the_rest_works(
    grown: Keeper, tmp_path: Path
) -> None:
    write_revisions(tmp_path, *REVISIONS, "op.execute('UPDATE birch_leaf SET n = 8'); 1 / 0")
    with throw_away_plugin("birch", manifest=birch(3)):
        before = dump(grown.path)
        said = grown.run("animal", "list")
        assert said.stderr.startswith("warning: plugin birch failed in loading: ")
        assert "ZeroDivisionError" in said.stderr
        assert said.stderr.count("\n") == 1
        assert dump(grown.path) == before
        assert grown.run("--strict", "animal", "list", ok=False).code == 1


def test_a_plugin_that_needs_newer_core_tables_is_not_enabled(
    keeper: Keeper, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_revisions(tmp_path, REVISIONS[0])
    monkeypatch.syspath_prepend(str(tmp_path))
    before = dump(keeper.path)
    with throw_away_plugin("birch", manifest=birch(1, needs_core="c0099")):
        refused = keeper.run("plugin", "enable", "birch", ok=False)
    assert (refused.code, f"plugin birch needs core tables c0099, the file has {CORE.head}") == (
        5,
        refused.stderr.removeprefix("warmside: ").strip(),
    )
    assert dump(keeper.path) == before


def test_a_plugin_that_vanished_does_not_stop_the_others_from_coming_along(
    grown: Keeper, tmp_path: Path
) -> None:
    grown.run("plugin", "enable", "rhythm")
    with closing(sqlite3.connect(grown.path)) as connection, connection:
        connection.execute("DROP TABLE rhythm_interval")  # as a file from before that plugin
        connection.execute("DROP TABLE schema_version_rhythm")
    said = grown.run("rhythm", "list")
    assert "brought the tables of rhythm up to date" in said.stderr
    assert "plugin birch failed in loading" in said.stderr
    assert leaves(grown.path) == [(1, 7)]


def test_a_lineage_without_tables_is_none() -> None:
    assert lineage_of(Manifest("birch", "", (1, 0), "x")) is None


def test_upgrade_of_several_lineages_is_one_change(
    keeper: Keeper, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_revisions(tmp_path, "1 / 0")
    monkeypatch.syspath_prepend(str(tmp_path))
    rhythm = lineage_of(manifest_of("rhythm"))
    assert rhythm is not None
    before = dump(keeper.path)
    with pytest.raises(FileProblem, match="tables of birch cannot be brought up to date"):
        runner.upgrade(
            sqlite.open_engine(keeper.path), [rhythm, Lineage("birch", "birch_revisions", "x")]
        )
    assert dump(keeper.path) == before
