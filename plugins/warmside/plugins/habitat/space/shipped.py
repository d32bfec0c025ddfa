"""The rules that ship, and those that speak of a species."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any

from warmside.api import SourcedRow, sourced_rows
from warmside.plugins.habitat.space.rules import Row, Rule

PACKAGE = "warmside.plugins.habitat"


def rules_for(scientific: str, group: str) -> tuple[Rule, ...]:
    """The rules that speak of a species or of its group."""
    return tuple(_rule(row) for row in _speaking(scientific, group))


def _speaking(scientific: str, group: str) -> Iterator[SourcedRow]:
    for row in _rows():
        named = scientific in row.get("species", ())
        meant = group in row.get("groups", ()) and scientific not in row.get("except", ())
        if named or meant:
            yield row


@cache
def _rows() -> tuple[SourcedRow, ...]:
    return sourced_rows(PACKAGE, "space", "rule")


def _rule(row: SourcedRow) -> Rule:
    factors = row.get("factors")
    return Rule(
        row["name"],
        row.source,
        row["length"] == "snout to vent",
        tuple(map(_row, row.get("rows", ()))),
        None if factors is None else (factors[0], factors[1], factors[2]),
        row.get("for_animals", 1),
        row.get("each_more_percent", 0.0),
    )


def _row(data: Mapping[str, Any]) -> Row:
    return Row(
        data.get("up_to_m", math.inf),
        data["floor_m2"],
        data.get("height_m"),
        data.get("each_more_m2", 0.0),
        data.get("second_percent", 0.0),
        data.get("each_more_percent", 0.0),
        data.get("shortest_side"),
    )
