"""A description's TOML with one thing added, changed or taken away; all else stays as it was typed.

Comments and order are the keeper's, so the text is edited by tomlkit, not written anew.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

Values = Mapping[str, Any]
"""Keys of a table with texts, numbers, days, truths or pairs of texts."""


def new_text(top: Values, zones: Sequence[Values]) -> str:
    """The description of a bare box with its zones."""
    import tomlkit  # only what writes needs it

    made = tomlkit.document()
    made.update(top)
    made.add(tomlkit.nl())
    for zone in zones:
        _table(made, "zone").append(_entry(zone))
    return made.as_string()


def with_added(text: str, table: str, values: Values) -> str:
    """The text with one more table of that name, behind those that are there."""
    import tomlkit

    found = tomlkit.parse(text)
    _table(found, table).append(_entry(values))
    return found.as_string()


def with_changed(text: str, table: str, number: int, values: Values) -> str:
    """The text with keys of one table set; of the whole where `table` is empty."""
    import tomlkit

    found = tomlkit.parse(text)
    target: Any = found[table] if table else found
    for key, value in values.items():
        (target[number] if table else target)[key] = value
    return found.as_string()


def without(text: str, table: str, number: int) -> str:
    """The text without one table."""
    import tomlkit

    found = tomlkit.parse(text)
    rows: Any = found[table]
    del rows[number]
    if not rows:
        del found[table]
    return found.as_string()


def _table(found: Any, name: str) -> Any:
    import tomlkit

    if name not in found:
        found.append(name, tomlkit.aot())
    return found[name]


def _entry(values: Values) -> Any:
    import tomlkit

    made = tomlkit.table()
    made.update(values)
    made.add(tomlkit.nl())
    return made
