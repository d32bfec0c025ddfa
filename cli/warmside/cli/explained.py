"""Whether what looks strange in a file was made by revisions that are installed here.

A plugin's revision may make a trigger of its own. Whether it did is told by running the revisions
once in a new file; that is remembered for as long as the file holds the same.
"""

from __future__ import annotations

import hashlib
import sqlite3
import tempfile
from contextlib import closing, suppress
from pathlib import Path

from warmside.cli.cache import cache_file
from warmside.core.file.state import FileState
from warmside.core.file.strangers import Thing, schema_of
from warmside.core.values.errors import FileProblem

NAMED = 3  # at most, in one line


def check_strangers(path: Path, state: FileState) -> None:
    """Raise FileProblem where something in the file acts by itself that no revision here makes."""
    if found := [t for t in unexplained(path, state) if t.acts]:
        names = ", ".join(t.told for t in found[:NAMED])
        more = f" and {len(found) - NAMED} more" if len(found) > NAMED else ""
        raise FileProblem(
            f"{path} holds what no version of this program made: {names}{more}; it was not opened, "
            "since such a thing may act by itself; to take over the rows alone: "
            f"warmside --collection {path} file export ROWS.zip, then read that with file import"
        )


def unexplained(path: Path, state: FileState) -> list[Thing]:
    """The things in a file that no revision here makes; that none is left is remembered."""
    if not state.strangers:
        return []
    digest = hashlib.sha256(repr((state.strangers, state.revisions)).encode()).hexdigest()
    memory = cache_file(path, "explained")
    with suppress(OSError):
        if memory.read_text(encoding="ascii") == digest:
            return []
    found = _not_made(state)
    with suppress(OSError):
        if not found:
            memory.parent.mkdir(parents=True, exist_ok=True)
            memory.write_text(digest, encoding="ascii")
    return found


def _not_made(state: FileState) -> list[Thing]:
    from warmside.cli.built_tables import make_tables  # imports Alembic

    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "made"
        make_tables(path, state.revisions)
        with closing(sqlite3.connect(path)) as connection:
            made = set(schema_of(connection))
    return [t for t in state.strangers if t not in made]
