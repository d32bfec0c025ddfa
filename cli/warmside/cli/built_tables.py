"""The tables of the core and of installed plugins, made by their own revisions in a new file."""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping
from contextlib import closing
from pathlib import Path

from warmside import migrations
from warmside.core.file import sqlite
from warmside.core.file.state import APPLICATION_ID
from warmside.core.plugins.discovery import manifests
from warmside.core.plugins.manifest import Manifest
from warmside.core.values.errors import FileProblem
from warmside.migrations import Lineage, lineage_of, runner


def make_tables(path: Path, revisions: Mapping[str, str]) -> frozenset[str]:
    """Make a file with the tables of these owners at these revisions.

    Gives the owners that are known here at that revision; raises FileProblem where the core is
    from a newer version.
    """
    runner.check_known(migrations.CORE, revisions["core"])
    lineages = {migrations.CORE: revisions["core"]}
    for manifest in manifests(n for n in revisions if n != "core"):
        lineage = lineage_of(manifest) if isinstance(manifest, Manifest) else None
        if lineage is not None and _knows(lineage, revisions[lineage.owner]):
            lineages[lineage] = revisions[lineage.owner]
    engine = sqlite.open_engine(path)
    with sqlite.keeper_errors(engine), closing(sqlite3.connect(path)) as connection:
        connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
    runner.upgrade(engine, lineages, lineages)
    return frozenset(lineage.owner for lineage in lineages)


def _knows(lineage: Lineage, revision: str) -> bool:
    try:
        runner.check_known(lineage, revision)
    except FileProblem:
        return False
    return True
