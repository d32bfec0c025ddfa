"""What is wrong with a plugin at work: hooks, undo, the archive, forgetting."""

from __future__ import annotations

import importlib
from collections.abc import Iterator
from typing import Any
from unittest import mock

from warmside.core.plugins.hookspecs import Hooks, hookimpl
from warmside.testing.tried import Check, Tried, contents, tour

INTEGRAL = ("warmside_events_recorded", "warmside_rows_changed")
NOT_TOURED = (*INTEGRAL, "warmside_settle", "warmside_event_kinds")
RAISED = "on purpose, by check_plugin"


def typed_commands(tried: Tried) -> Iterator[str]:
    """Commands that the plugin is tried with and that end badly."""
    try:
        tried.used  # noqa: B018  made when it is first asked for
    except AssertionError as refused:
        yield f"typed: {refused}"


def hooks_on_any_collection(tried: Tried) -> Iterator[str]:
    """Hooks that fail where nothing is on record, or on an ordinary collection."""
    for words, keeper in (("empty", tried.empty), ("filled", tried.used)):
        for failure in tour(keeper, tried.manifest):
            yield f"hooks: on an {words} collection: {failure}"


def hooks_that_raise(tried: Tried) -> Iterator[str]:
    """Hooks that take more with them than their own items, or that write though they raise."""
    for hook in _implemented(tried):
        with mock.patch.object(_module(tried), hook, _raising(hook)):
            if hook in INTEGRAL:
                yield from _stops_the_step(tried, hook)
            elif hook not in NOT_TOURED:
                yield from _costs_only_itself(tried, hook)


def _costs_only_itself(tried: Tried, hook: str) -> Iterator[str]:
    try:
        failed = {f.where for f in tour(tried.used, tried.manifest)}
    except Exception as error:
        yield f"hooks: where {hook} raises, the rest does not go on: {error}"
        return
    if failed != {hook}:
        yield f"hooks: where {hook} raises, these fail: {', '.join(sorted(failed)) or 'none'}"


def _stops_the_step(tried: Tried, hook: str) -> Iterator[str]:
    keeper = tried.copy(tried.filled, hook)
    before = contents(keeper.path, whole=True)
    recording = hook == "warmside_events_recorded"
    words = (
        ("record", "cleaned", "SHE") if recording else ("enclosure", "change", "SHE", "--room", "X")
    )
    done = keeper.run(*words, ok=False)
    if done.code == 0 or contents(keeper.path, whole=True).differing(before):
        yield f"hooks: where {hook} raises, the step is written all the same"


def _implemented(tried: Tried) -> list[str]:
    names = [name for name in vars(Hooks) if name.startswith("warmside_")]
    return [name for name in names if hasattr(_module(tried), name)]


def _module(tried: Tried) -> Any:
    return importlib.import_module(tried.manifest.hooks)


def _raising(hook: str) -> Any:
    def raising() -> None:
        raise RuntimeError(RAISED)

    raising.__name__ = hook
    return hookimpl(raising)


def reading_that_writes(tried: Tried) -> Iterator[str]:
    """Typed commands, which write, that the manifest says to only answer."""
    for words in tried.typed:
        said = " ".join(map(str, words))
        for command in tried.manifest.commands:
            for reads in command.reads:
                if f"{said} ".startswith(f"{command.name} {reads}".strip() + " "):
                    yield f"manifest: {command.name} {reads} writes and stands in its reads".strip()


def undo_and_redo(tried: Tried) -> Iterator[str]:
    """Commands that write nothing, or whose step does not come back as it was."""
    keeper = tried.copy(tried.filled, "undone")
    first = contents(keeper.path)
    for words in tried.typed:
        said = " ".join(map(str, words))
        before = contents(keeper.path)
        keeper.run(*words)
        after = contents(keeper.path)
        if not after.differing(before):
            yield f"undo: {said!r} writes nothing; type a command that does"
            continue
        for deed, wanted in (("undo", before), ("redo", after)):
            keeper.run(deed)
            wrong = contents(keeper.path).differing(wanted)
            if wrong:
                yield f"undo: after {said!r} and {deed}, these differ: {', '.join(wrong)}"
    own = contents(keeper.path).of(tried.name)
    if own and own == first.of(tried.name):
        yield "undo: no typed command writes into a table of the plugin; give one that does"


def export_and_import(tried: Tried) -> Iterator[str]:
    """Tables that an archive does not bring back as they were."""
    keeper, folder = tried.used, tried.folder
    keeper.run("file", "export", folder / "all.zip")
    target = folder / "imported.warmside"
    keeper.run("--collection", target, "file", "import", folder / "all.zip")
    wrong = contents(target, whole=True).differing(contents(keeper.path, whole=True))
    if wrong:
        yield f"archive: after export and import, these differ: {', '.join(wrong)}"


def forgetting(tried: Tried) -> Iterator[str]:
    """What is left of a plugin that the keeper had forgotten."""
    keeper, name = tried.copy(tried.used, "forgotten"), tried.name
    keeper.run("plugin", "disable", name)
    keeper.run("plugin", "forget", name, "--to", tried.folder / "gone.zip", "--name", name)
    left = contents(keeper.path, whole=True).tables
    mine = (f"{name}_", f"schema_version_{name}")
    for table in sorted(t for t in left if t.startswith(mine)):
        yield f"forgetting: the table {table} is left"
    for table in ("plugin_state", "scoped_value"):
        if any(name in row for row in left[table]):
            yield f"forgetting: {table} still has a row of it"
    serving_undo = (value for row in (*left["change"], *left["touched"]) for value in row)
    if any(str(value).startswith(f"{name}_") for value in serving_undo):
        yield "forgetting: what serves undo still names its tables"
    checked = keeper.run("file", "check", ok=False)
    if checked.code:
        yield f"forgetting: the file check then says: {' '.join(checked.stdout.split())}"


FIRST: tuple[Check, ...] = (typed_commands,)
CHECKS: tuple[Check, ...] = (
    hooks_on_any_collection,
    hooks_that_raise,
    reading_that_writes,
    undo_and_redo,
    export_and_import,
    forgetting,
)
