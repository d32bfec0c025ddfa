"""Protocols and laboratory figures of one collection: shipped ones, and what the keeper changed."""

from __future__ import annotations

import tomllib
from collections import defaultdict
from collections.abc import Mapping

from sqlalchemy import select

from warmside.api import Book, NotFound, near_miss, quoted
from warmside.plugins.quarantine.performance import Performance, laboratory
from warmside.plugins.quarantine.protocol import Protocol
from warmside.plugins.quarantine.protocol_reading import (
    KEEPERS_OWN,
    parse_protocol,
    shipped_protocols,
    with_overrides,
)
from warmside.plugins.quarantine.tables import edit
from warmside.plugins.quarantine.tables import laboratory as laboratory_table
from warmside.plugins.quarantine.tables import protocol as protocol_table

NAME = "quarantine"
GENERAL = "general"


def originals(book: Book) -> dict[str, Protocol]:
    """Every protocol by name as it was shipped or added, without changed values."""
    c = protocol_table.c
    rows = book.rows(select(c.name, c.text).order_by(c.name))
    own = {n: parse_protocol(n, tomllib.loads(text)[n], KEEPERS_OWN) for n, text in rows}
    return {**shipped_protocols(), **own}


def protocols(book: Book) -> dict[str, Protocol]:
    """Every protocol by name with the collection's values."""
    edits = edits_of(book)
    days = book.setting(NAME, "days")
    found = originals(book)
    if days != found[GENERAL].days:
        edits = {**edits, GENERAL: {"days": str(days)} | dict(edits.get(GENERAL, {}))}
    return {n: with_overrides(p, edits[n]) if n in edits else p for n, p in found.items()}


def edits_of(book: Book) -> Mapping[str, Mapping[str, str]]:
    """The values changed for the collection, by protocol and dotted key."""
    c = edit.c
    found: dict[str, dict[str, str]] = defaultdict(dict)
    for protocol, key, value in book.rows(
        select(c.protocol, c.key, c.value).order_by(c.protocol, c.key)
    ):
        found[protocol][key] = value
    return found


def named_protocol(known: Mapping[str, Protocol], name: str) -> Protocol:
    """The protocol of that name; raises NotFound with a near miss."""
    if name not in known:
        raise NotFound(
            f"there is no protocol {quoted(name)}{near_miss(name, known)}; "
            "list them with: warmside quarantine protocols"
        )
    return known[name]


def default_protocol(book: Book) -> str:
    """The protocol of the setting; raises NotFound that names the setting where it is unknown."""
    name = str(book.setting(NAME, "protocol"))
    known = protocols(book)
    if name not in known:
        raise NotFound(
            f"the setting protocol names {quoted(name)}, which there is not"
            f"{near_miss(name, known)}; change it: warmside plugin set quarantine protocol general"
        )
    return name


def laboratory_figures(book: Book) -> dict[str, Performance]:
    """The figures of the keeper's laboratory, by method."""
    c = laboratory_table.c
    rows = book.rows(select(c.method, c.sensitivity_low, c.sensitivity_high, c.specificity))
    return {method: laboratory(low, high, specificity) for method, low, high, specificity in rows}
