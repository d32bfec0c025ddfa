"""The tables of revisions, built once for all tests that read an archive."""

from __future__ import annotations

import tempfile
from collections.abc import Mapping
from functools import cache
from pathlib import Path

from warmside.cli.built_tables import make_tables
from warmside.core.file.archives import reading as archive_reading


@cache
def _built(revisions: tuple[tuple[str, str], ...]) -> tuple[bytes, frozenset[str]]:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "built"
        known = make_tables(path, dict(revisions))
        return path.read_bytes(), known


def made_once(path: Path, revisions: Mapping[str, str]) -> frozenset[str]:
    """As `make_tables`, from a copy."""
    content, known = _built(tuple(sorted(revisions.items())))
    path.write_bytes(content)
    return known


def restored(source: Path, path: Path) -> int:
    """A new file from an archive; the number of its rows."""
    return archive_reading.restore(source, path, made_once)
