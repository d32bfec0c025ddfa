"""Schema history. This module is the fast path and imports neither Alembic nor SQLAlchemy."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from warmside.core.file.state import FileState
from warmside.core.plugins.manifest import Manifest

CORE_HEAD = "c0010"


class Lineage(NamedTuple):
    """An owner of tables with its own revisions and its own version table."""

    owner: str
    package: str  # importable package that holds the revision files
    head: str
    needs_core: str | None = None

    @property
    def version_table(self) -> str:
        """The table that tells at which revision of this lineage a file is."""
        return f"schema_version_{self.owner}"


CORE = Lineage("core", "warmside.migrations.versions", CORE_HEAD)


def lineage_of(manifest: Manifest) -> Lineage | None:
    """The lineage of a plugin, if it owns tables."""
    if manifest.migrations is None or manifest.head is None:
        return None
    return Lineage(manifest.name, manifest.migrations, manifest.head, manifest.needs_core)


def outdated(state: FileState, enabled: Iterable[Manifest]) -> list[Lineage]:
    """Lineages of which the file is not at this program's head; none is the usual case."""
    lineages = [CORE, *(x for m in enabled if (x := lineage_of(m)))]
    return [x for x in lineages if state.revisions.get(x.owner) != x.head]
