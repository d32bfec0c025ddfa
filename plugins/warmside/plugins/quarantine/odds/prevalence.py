"""How common an infection was in published surveys: the prior before any test."""

from __future__ import annotations

import functools

from msgspec import Struct

from warmside.api import BadInput, Source, SourcedRow, figures, near_miss, sourced_rows
from warmside.plugins.quarantine.odds.freedom import Range
from warmside.plugins.quarantine.odds.methods import PACKAGE


class Survey(Struct, frozen=True):
    """The share infected among the animals of one survey, with its 95 % interval.

    Where neither interval nor counts are printed, `low` and `high` equal the value. `groups` are
    the groups of species that it concerns. One that measured something else than the others
    (`alone`) is a prior only where it is named.
    """

    key: str
    agent: str
    animals: str
    value: float
    low: float
    high: float
    source: Source
    groups: tuple[str, ...]
    alone: bool


@functools.cache
def surveys() -> tuple[Survey, ...]:
    """Every survey on file."""
    return tuple(_survey(row) for row in sourced_rows(PACKAGE, "prevalence", "survey"))


def survey(key: str) -> Survey:
    """The survey of that key; raises BadInput with a near miss."""
    by_key = {s.key: s for s in surveys()}
    if key not in by_key:
        raise BadInput(f"no survey {key!r}{near_miss(key, by_key)}; known: {', '.join(by_key)}")
    return by_key[key]


def surveys_of(agent: str, group: str) -> tuple[Survey, ...]:
    """The surveys of one agent in a group of species that may stand together; none if none."""
    return tuple(s for s in surveys() if s.agent == agent and group in s.groups and not s.alone)


def _survey(row: SourcedRow) -> Survey:
    value = row["value"] if "value" in row else row["cases"] / row["sampled"]
    interval = _interval(row, value)
    return Survey(
        row["key"],
        row["agent"],
        row["animals"],
        value,
        interval.low,
        interval.high,
        row.source,
        tuple(row["groups"]),
        row.get("alone", False),
    )


def _interval(row: SourcedRow, value: float) -> Range:
    if "low" in row:
        return Range(row["low"], row["high"])
    if "cases" in row:
        return Range(*figures.wilson_interval(row["cases"], row["sampled"]))
    return Range(value, value)
