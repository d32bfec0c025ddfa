"""The plugin's reference data: TOML files in its data folder, every row with source and mark."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any

from warmside.api import Mark, Source

Span = tuple[float, float]


@cache
def rows(file: str, key: str) -> tuple[Mapping[str, Any], ...]:
    """The rows named `key` of data/`file`.toml."""
    text = (files(__package__ or "") / "data" / f"{file}.toml").read_text(encoding="utf-8")
    return tuple(tomllib.loads(text)[key])


def source_of(row: Mapping[str, Any], prefix: str = "") -> Source:
    """Source and mark of a row, or of one part of it (`mass_`, `temperature_`)."""
    return Source(row[f"{prefix}source"], Mark(row[f"{prefix}mark"]))


def span(pair: list[float]) -> Span:
    """A [low, high] pair of a row."""
    low, high = pair
    return float(low), float(high)
