"""Whose a table is, by its name alone, so that no plugin need be imported. No heavy imports."""

from __future__ import annotations

CORE_TABLES = frozenset(
    {
        "collection",
        "species",
        "animal",
        "parentage",
        "clutch",
        "clutch_sire",
        "clutch_young",
        "enclosure",
        "event",
        "event_shelf",
        "step",
        "change",
        "plugin_state",
        "scoped_value",
        "put_off",
        "picture",
        "touched",
        "seal",
    }
)
VERSIONS = "schema_version_"


def owner_of(table: str) -> str:
    """The owner of a table: `core`, or the plugin whose name it begins with."""
    if table in CORE_TABLES or table.startswith(VERSIONS):
        return "core"
    return table.partition("_")[0]
