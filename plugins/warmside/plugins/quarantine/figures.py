"""Reads the plugin's shipped figures: TOML tables in which every row names source and mark."""

from __future__ import annotations

import functools
import tomllib
from collections.abc import Mapping
from importlib.resources import files
from typing import Any

from warmside.api import BadInput, Mark, Source


@functools.cache
def shipped(name: str) -> Mapping[str, Any]:
    """The parsed data file of that name (`mites.toml`)."""
    return tomllib.loads((files(__package__) / "data" / name).read_text(encoding="utf-8"))


def source_of(row: Mapping[str, Any], where: str) -> Source:
    """The row's source; raises BadInput naming `where` unless source and a known mark are there."""
    text, mark = row.get("source"), row.get("mark")
    if not isinstance(text, str) or not text.strip():
        raise BadInput(f"{where} has no source; say where the figure comes from")
    if mark not in tuple(Mark):
        known = ", ".join(Mark)
        raise BadInput(f"{where} has the mark {mark!r}; it is one of: {known}")
    return Source(text, Mark(mark))
