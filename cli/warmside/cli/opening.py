"""Opening a collection file for a command: found, brought up to date, its plugins loaded."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from warmside.cli.cache import cache_file
from warmside.cli.plugin_choice import PluginChoice
from warmside.core.file import attention
from warmside.core.file.state import FileState, read_state
from warmside.core.plugins.discovery import manifests
from warmside.core.plugins.host import Host
from warmside.core.plugins.manifest import BadPlugin, Manifest
from warmside.core.record.derived import Kept
from warmside.core.session.collection import Collection
from warmside.core.values.errors import FileProblem
from warmside.migrations import Lineage, outdated


def open_collection(path: Path, now: datetime, choice: PluginChoice) -> Collection:
    """The open collection; NotFound where there is no file yet, FileProblem for a bad one."""
    if not path.exists():
        from warmside.core.file.copies.backup import no_file

        raise no_file(path)
    state = read_state(path)
    if any(thing.acts for thing in state.strangers):
        from warmside.cli.explained import check_strangers

        check_strangers(path, state)
    choice.check(state.known)
    found = manifests(choice.of(state.enabled))
    good = [m for m in found if isinstance(m, Manifest)]
    notices: list[str] = []
    stale = outdated(state, good)
    if stale:
        found = _brought_up_to_date(path, now, state, stale, found, notices)
    kept = Kept(lambda: cache_file(path, "kept"))
    collection = Collection(path, Host(found), kept, second=_second_folder)
    if found_wrong := attention.standing(path):
        collection.notices.append(attention.told(path, found_wrong))
    collection.notices += notices
    return collection


def _second_folder(identity: str) -> Path | None:
    from warmside.cli.second_copies import second_folder

    return second_folder(identity)


def _brought_up_to_date(
    path: Path,
    now: datetime,
    state: FileState,
    stale: list[Lineage],
    found: list[Manifest | BadPlugin],
    notices: list[str],
) -> list[Manifest | BadPlugin]:
    """Migrate; a plugin whose own tables cannot be brought up to date is left out and named."""
    from warmside.core.file import sqlite
    from warmside.core.file.copies import backup
    from warmside.migrations import runner

    engine = sqlite.open_engine(path)
    left_out: dict[str, BadPlugin] = {}
    done: list[str] = []
    copy: Path | None = None
    try:
        for lineage in sorted(stale, key=lambda x: x.owner != "core"):
            try:
                runner.check_known(lineage, state.revisions.get(lineage.owner))
                copy = copy or backup.before(path, "update", now)
                runner.upgrade(engine, [lineage])
                done.append(lineage.owner)
            except FileProblem as problem:
                if lineage.owner == "core":
                    raise
                left_out[lineage.owner] = BadPlugin(lineage.owner, str(problem))
    finally:
        if copy and not done:  # the file is as it was; else every command would leave a copy
            copy.unlink()
    if done:
        notices.append(f"brought the tables of {', '.join(done)} up to date; copy kept in {copy}")
    return [left_out.get(m.name, m) if isinstance(m, Manifest) else m for m in found]
