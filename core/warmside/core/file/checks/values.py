"""Whether texts in the core's tables can be read as what they stand for."""

from __future__ import annotations

import json
import re
import sqlite3
from collections.abc import Callable, Iterator
from typing import Any
from zoneinfo import ZoneInfo

from warmside.core.file.copies.keeping import parse_keeping
from warmside.core.record.entities import SEX_KNOWN_BY, SEX_SYSTEMS
from warmside.core.record.species.known import GROUPS
from warmside.core.values.display import parse_display
from warmside.core.values.errors import WarmsideError
from warmside.core.values.moments import parse_partial_date
from warmside.core.values.numbered_days import ORDERS

IDENTITY = re.compile("[0-9a-f]{32}")
VERSION = re.compile("[a-z0-9_]{1,32}")


def check(connection: sqlite3.Connection) -> Iterator[tuple[str, str]]:
    """What was read, and the first text that cannot be."""
    number = connection.execute("SELECT count(*) FROM collection").fetchone()[0]
    yield "the collection's own row", "" if number == 1 else f"there are {number} rows, not 1"
    for what, query, read in READ:
        yield what, _first(connection, query, read)


def _first(connection: sqlite3.Connection, query: str, read: Callable[[Any], object]) -> str:
    for (value,) in connection.execute(query):
        try:
            read(value)
        except (WarmsideError, ValueError, TypeError, KeyError, OSError, RecursionError):
            return f"{str(value)[:40]!r} is none"
    return ""


def _one_of(words: Any) -> Callable[[Any], object]:
    return lambda value: tuple(words).index(value)


def _matches(rule: re.Pattern[str]) -> Callable[[Any], object]:
    def read(value: Any) -> None:
        if not rule.fullmatch(value):
            raise ValueError(value)

    return read


def _mapping(value: Any) -> None:
    if not isinstance(json.loads(value), dict):
        raise ValueError(value)


READ: tuple[tuple[str, str, Callable[[Any], object]], ...] = (
    (
        "zones are known",
        "SELECT zone FROM collection UNION SELECT zone FROM event WHERE zone IS NOT NULL "
        "UNION SELECT zone FROM event_shelf WHERE zone IS NOT NULL",
        ZoneInfo,
    ),
    ("units are known", "SELECT units FROM collection", parse_display),
    (
        "the order of typed days is known",
        "SELECT dates FROM collection WHERE dates IS NOT NULL",
        _one_of(ORDERS),
    ),
    ("the rule for keeping can be read", "SELECT keeping FROM collection", parse_keeping),
    ("the collection has an identity", "SELECT identity FROM collection", _matches(IDENTITY)),
    (
        "days of hatching can be read",
        "SELECT DISTINCT hatched FROM animal WHERE hatched <> ''",
        parse_partial_date,
    ),
    (
        "how the sex is known is known",
        "SELECT DISTINCT sex_known_by FROM animal",
        _one_of(SEX_KNOWN_BY),
    ),
    ("groups of species are known", "SELECT DISTINCT grp FROM species", _one_of(GROUPS)),
    (
        "determinations of sex are known",
        "SELECT DISTINCT sex_system FROM species",
        _one_of(SEX_SYSTEMS),
    ),
    ("settings can be read", "SELECT settings FROM plugin_state", _mapping),
    ("narrower settings can be read", "SELECT value FROM scoped_value", json.loads),
    (
        "what steps changed can be read",
        "SELECT key FROM change UNION ALL SELECT before FROM change WHERE before IS NOT NULL "
        "UNION ALL SELECT after FROM change WHERE after IS NOT NULL",
        _mapping,
    ),
    (
        "the core's revision can be read",
        "SELECT version_num FROM schema_version_core",
        _matches(VERSION),
    ),
)
