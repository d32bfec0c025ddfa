"""Reference data that plugins ship: TOML files of rows, each row with its source and mark."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from typing import Any

import tomli

from warmside.core.values.basis import Mark, Source


class SourcedRow(dict[str, Any]):
    """A row by its keys, with `source` and `mark` among them.

    A part of the row that comes from elsewhere says so in `<part>_source` and `<part>_mark`.
    """

    @property
    def source(self) -> Source:
        """Where the row comes from."""
        return Source(self["source"], Mark(self["mark"]))

    def source_of(self, part: str) -> Source:
        """Where a part of the row comes from: as the whole row, unless it says otherwise."""
        if f"{part}_source" not in self:
            return self.source
        return Source(self[f"{part}_source"], Mark(self[f"{part}_mark"]))

    def span(self, key: str) -> tuple[float, float]:
        """A pair [low, high] of the row."""
        low, high = self[key]
        return float(low), float(high)


@cache
def sourced_rows(package: str, file: str, key: str = "row") -> tuple[SourcedRow, ...]:
    """The rows named `key` of `<package>/data/<file>.toml`, in the file's order.

    Shipped data are right or the plugin is broken: a row without a source (KeyError), with a mark
    that is none of Mark (ValueError) fails at once.
    """
    rows = tuple(SourcedRow(row) for row in _document(package, file)[key])
    for row in rows:
        _check(row)
    return rows


@cache
def _document(package: str, file: str) -> dict[str, Any]:
    """The whole file, read once for all its keys: reading TOML is a good part of a start."""
    return tomli.loads((files(package) / "data" / f"{file}.toml").read_text("utf-8"))


def _check(row: SourcedRow) -> None:
    assert row.source
    for key in row:
        if key.endswith("_mark"):
            row.source_of(key.removesuffix("_mark"))
