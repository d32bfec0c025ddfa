"""The plugin's reference rows, read once from its data folder."""

from __future__ import annotations

import functools
import tomllib
from importlib.resources import files
from typing import Any

from warmside.api import Mark, Source


@functools.cache
def rows(name: str) -> tuple[dict[str, Any], ...]:
    """The rows of `data/<name>.toml`, in the file's order."""
    text = (files("warmside.plugins.shed") / "data" / f"{name}.toml").read_text("utf-8")
    return tuple(tomllib.loads(text)["row"])


def source_of(row: dict[str, Any]) -> Source:
    """Where a row comes from, with its mark."""
    return Source(row["source"], Mark(row["mark"]))
