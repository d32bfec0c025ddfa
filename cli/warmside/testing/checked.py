"""What every plugin must do, checked at once; for the tests of a plugin."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import nullcontext
from pathlib import Path

from warmside.core.plugins.discovery import installed, manifest_of
from warmside.core.plugins.manifest import BadPlugin, Manifest
from warmside.testing.throw_away import offered
from warmside.testing.tried import Check, Tried, Typed


def check_plugin(
    plugin: str | Manifest, folder: Path, *, setup: Typed = (), typed: Typed = ()
) -> None:
    """Raise AssertionError naming all that is wrong with a plugin, each in a line.

    The plugin is tried in collections in the folder, which hold the animals EMB (in the enclosure
    SHE) and MOS (in none) and the empty enclosure BOX. `setup` are commands that prepare, `typed`
    commands that each write one step, which is taken back and done again. Checked are the manifest
    and its head, tables against revisions, what is imported, each hook on an empty and on a filled
    collection, that a hook which raises costs only itself, undo and redo, export and import, and
    that forgetting leaves no trace.
    """
    known = isinstance(plugin, str) or plugin.name in installed()
    with nullcontext() if known else offered(plugin):  # type: ignore[arg-type]
        problems = list(_problems(plugin, folder, setup, typed))
    assert not problems, "\n".join(["the plugin is not as it should be:", *problems])


def _problems(plugin: str | Manifest, folder: Path, setup: Typed, typed: Typed) -> Iterator[str]:
    from warmside.testing import at_work, by_reading  # SQLAlchemy and Alembic, not for every test

    try:
        manifest = manifest_of(plugin if isinstance(plugin, str) else plugin.name)
    except BadPlugin as bad:
        yield str(bad)
        return
    tried = Tried(manifest, folder, setup, typed)
    for part in (by_reading, at_work):
        found = [p for check in part.FIRST for p in _found(check, tried)]
        yield from found
        if found:
            return
        for check in part.CHECKS:
            yield from _found(check, tried)


def _found(check: Check, tried: Tried) -> Iterator[str]:
    """What a check finds, each in a line; a check that cannot be made finds that."""
    try:
        yield from (" ".join(problem.split()) for problem in check(tried))
    except Exception as error:
        told = " ".join(str(error).split())
        yield f"{check.__name__.replace('_', ' ')}: cannot be tried: {told}"
