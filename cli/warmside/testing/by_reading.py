"""What is wrong with a plugin as it is written: manifest, imports, tables against revisions."""

from __future__ import annotations

import ast
import json
from collections.abc import Iterator

from sqlalchemy import Engine

from warmside.cli.lazy import as_command, leaves
from warmside.core.file import sqlite
from warmside.core.plugins.discovery import load_object
from warmside.core.plugins.hook_values import ShippedValue
from warmside.core.plugins.manifest import Setting, setting_value
from warmside.core.plugins.quantities import QUANTITIES
from warmside.core.record.guards import STEP, series_guards
from warmside.core.record.owners import owner_of
from warmside.core.record.tables import metadata
from warmside.core.values.basis import Mark
from warmside.core.values.errors import WarmsideError
from warmside.migrations import lineage_of, runner
from warmside.testing.schema_facts import facts
from warmside.testing.tried import Check, Tried

HEAVY = {"sqlalchemy", "alembic", "reportlab", "numpy", "scipy", "icalendar", "rich", "typer"}


def loading(tried: Tried) -> Iterator[str]:
    """Modules and objects that the manifest names and that do not import."""
    for target in _targets(tried):
        try:
            load_object(target)
        except Exception as error:
            yield f"manifest: {target} does not import: {type(error).__name__}: {error}"


def reading_commands(tried: Tried) -> Iterator[str]:
    """What the manifest says to only answer, and that is none of its commands."""
    for command in tried.manifest.commands:
        known = [words for words, _ in leaves(as_command(load_object(command.app), command.name))]
        for words in command.reads:
            if words not in known:
                yield f"manifest: {command.name} reads {words!r}, which is none of its commands"


def _targets(tried: Tried) -> list[str]:
    """Every module and object that the manifest names."""
    m = tried.manifest
    return [
        x for x in (m.hooks, m.tables, m.migrations, m.values, *(c.app for c in m.commands)) if x
    ]


def manifest(tried: Tried) -> Iterator[str]:
    """What the manifest says wrongly or leaves out."""
    m = tried.manifest
    parts = (m.tables, m.migrations, m.head)
    if any(parts) and not all(parts):
        yield "manifest: tables, migrations and head are given all three or none"
    if m.head and not m.head.startswith(m.name):
        yield f"manifest: the revision {m.head} is named {m.name}0001, {m.name}0002 …"
    for code, meaning in m.findings:
        if not code.startswith(f"{m.name}.") or not meaning:
            yield f"manifest: the finding {code!r} is named {m.name}.<word> and has a meaning"
    for answer in m.answers:
        if answer.what not in QUANTITIES and not answer.what.startswith(f"{m.name}."):
            yield f"manifest: the quantity {answer.what!r} is one of core or {m.name}.<word>"
    if not m.answers and hasattr(load_object(m.hooks), "warmside_answer"):
        yield "manifest: warmside_answer is never asked, as answers names no quantity"
    for setting in m.settings:
        yield from _setting(setting)
    yield from _shipped(tried)


def _setting(setting: Setting) -> Iterator[str]:
    try:
        setting_value(setting, setting.default)
    except WarmsideError as error:
        yield f"manifest: the default of {setting.name}: {error}"
    if not any(f"{mark.value}" in setting.source for mark in Mark):
        yield f"manifest: the source of {setting.name} says none of: " + ", ".join(Mark)


def fields(tried: Tried) -> Iterator[str]:
    """Fields of its kinds whose names do not end in the unit that they are stored in."""
    declared = getattr(load_object(tried.manifest.hooks), "warmside_event_kinds", tuple)
    for kind in declared():
        for spec in kind.fields:
            if spec.unit and not spec.name.endswith((spec.unit.suffix, spec.unit.name)):
                wanted = f"{spec.name.rpartition('_')[0] or spec.name}{spec.unit.suffix}"
                yield f"kinds: {kind.name} {spec.name} ends in its unit: {wanted}"


def _shipped(tried: Tried) -> Iterator[str]:
    settings = {s.name: s for s in tried.manifest.settings if "species" in s.per}
    for value in load_object(tried.manifest.values)() if tried.manifest.values else ():
        if type(value) is not ShippedValue or value.name not in settings:
            yield f"manifest: {value!r} is no value of a setting that may be set per species"
            continue
        try:
            setting_value(settings[value.name], value.value)
        except WarmsideError as error:
            yield f"manifest: the value for {value.species}: {error}"


def imports(tried: Tried) -> Iterator[str]:
    """Imports of ours that are neither the api nor the plugin itself."""
    own = (tried.package, "warmside.api")
    for path in tried.sources:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            for name in _named(node):
                mine = any(name == o or name.startswith(f"{o}.") for o in own)
                if name.split(".")[0] == "warmside" and not mine:
                    yield f"imports: {path.name} imports {name}; all is in warmside.api"


def _named(node: ast.AST) -> list[str]:
    if isinstance(node, ast.Import):
        return [a.name for a in node.names]
    if isinstance(node, ast.ImportFrom) and node.module and not node.level:
        return [f"{node.module}.{a.name}" for a in node.names]
    return []


def late_imports(tried: Tried) -> Iterator[str]:
    """Heavy libraries that a start would wait for."""
    if not tried.sources:
        return
    for module, slow in ((tried.package, HEAVY | {"pluggy"}), (tried.manifest.hooks, HEAVY)):
        loaded = _loaded(tried, module) & slow
        if loaded:
            yield f"imports: {module} imports {', '.join(sorted(loaded))}; import it late"


def _loaded(tried: Tried, module: str) -> set[str]:
    """The top packages that a fresh process has imported with a module."""
    code = f"import json, sys, {module}; print(json.dumps([m.split('.')[0] for m in sys.modules]))"
    done = tried.empty.run_apart(program=("-c", code))
    assert done.code == 0, done.stderr
    return set(json.loads(done.stdout))


def head(tried: Tried) -> Iterator[str]:
    """Revisions that do not lead from one beginning to the head that the manifest names."""
    lineage = lineage_of(tried.manifest)
    if lineage is not None:
        heads = runner.script(lineage).get_heads()
        if heads != [lineage.head] or len(runner.script(lineage).get_bases()) != 1:
            yield f"revisions: the manifest's head is {lineage.head}, the revisions end in {heads}"


def tables(tried: Tried) -> Iterator[str]:
    """Tables that the revisions make otherwise than they are declared."""
    lineage = lineage_of(tried.manifest)
    if lineage is None:
        return
    engine = sqlite.open_engine(tried.empty.path)
    for difference in runner.differences(engine, lineage, str(tried.manifest.tables)):
        yield f"revisions: tables and revisions differ: {difference}"
    own = {t for t in metadata.tables if owner_of(t) == lineage.owner}
    migrated, declared = facts(engine, own), facts(_declared(tried, own), own)
    for table in sorted(t for t in own if migrated[t] != declared[t]):
        said = [k for k in declared[table] if migrated[table].get(k) != declared[table][k]]
        yield f"revisions: {table} is not as declared: {', '.join(said)}"
    yield from _unguarded(tried, own)


def _declared(tried: Tried, own: set[str]) -> Engine:
    """A file with the tables as they are declared."""
    fresh = sqlite.open_engine(tried.folder / "declared.warmside")
    metadata.create_all(fresh, tables=[t for t in metadata.sorted_tables if t.name in own])
    return fresh


def _unguarded(tried: Tried, own: set[str]) -> Iterator[str]:
    """Series whose revision made no guards, so that rows could be changed or lost."""
    engine = sqlite.open_engine(tried.empty.path)
    with sqlite.reading(engine) as connection:
        rows = connection.exec_driver_sql("SELECT sql FROM sqlite_schema WHERE type = 'trigger'")
        made = {row[0] for row in rows}
    for name in sorted(own):
        table = metadata.tables[name]
        if f"{name}_shelf" in own and STEP in table.columns:
            key = tuple(c.name for c in table.primary_key)
            if not set(series_guards(name, key)) <= made:
                yield f"revisions: {name} is a series without guards; make it with create_series"


FIRST: tuple[Check, ...] = (loading, head)  # nothing more can be tried where one of them fails
CHECKS: tuple[Check, ...] = (manifest, fields, reading_commands, imports, late_imports, tables)
