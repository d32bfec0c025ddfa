"""Protocols from TOML tables, shipped or the keeper's own, by one path with one set of checks.

A table's `source` and `mark` hold for every value below it that has none of its own.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Iterator, Mapping
from importlib.resources import files
from typing import Any

import tomli

from warmside.api import BadInput, Source
from warmside.plugins.quarantine.protocol.flat import built
from warmside.plugins.quarantine.protocol.sources import source_of
from warmside.plugins.quarantine.protocol.terms import Protocol
from warmside.plugins.quarantine.protocol.values import NAME


@functools.cache
def shipped_protocols() -> Mapping[str, Protocol]:
    """The protocols that come with the plugin, by name."""
    file = files("warmside.plugins.quarantine") / "data" / "protocols.toml"
    return parse_protocols(tomli.loads(file.read_text("utf-8")))


def parse_protocols(
    document: Mapping[str, Any], source: Source | None = None
) -> dict[str, Protocol]:
    """Protocols by name from a parsed TOML document.

    `source` is for values without one (a keeper's own file); without it such a value is refused.
    Raises BadInput naming protocol and key.
    """
    return {name: parse_protocol(name, table, source) for name, table in document.items()}


def parse_protocol(name: str, table: object, source: Source | None = None) -> Protocol:
    """One protocol from its TOML table; raises BadInput naming it and the key that is wrong."""
    if not re.fullmatch(NAME, name):
        raise BadInput(f"protocol {name!r}: a name is lower-case letters, digits and -")
    try:
        if not isinstance(table, Mapping):
            raise BadInput(f"it is a table, not {table!r}")
        rows = list(_flat(table, "", source))
        return built(name, {k: v for k, v, _ in rows}, {k: s for k, _, s in rows})
    except BadInput as e:
        raise BadInput(f"protocol {name}: {e}") from None


def _flat(
    table: Mapping[str, Any], prefix: str, source: Source | None
) -> Iterator[tuple[str, Any, Source]]:
    """Dotted key, value and source of everything in the table."""
    if "source" in table or "mark" in table:
        source = source_of(table, prefix.rstrip(".") or "it")
    for key, value in table.items():
        if key in ("source", "mark"):
            continue
        path = prefix.rstrip(".") if key == "value" and prefix else f"{prefix}{key}"
        if isinstance(value, Mapping):
            yield from _flat(value, f"{path}.", source)
        elif source is None:
            raise BadInput(f"{path} has no source; add source and mark")
        else:
            yield path, value, source
