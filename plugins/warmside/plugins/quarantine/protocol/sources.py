"""Who says so: the source of each value of a protocol, shipped or of the keeper's own file."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from warmside.api import BadInput, Mark, Source

KEEPERS_OWN = Source("the keeper's own", Mark.KEEPERS_OWN)


def source_of(row: Mapping[str, Any], where: str) -> Source:
    """The row's source; raises BadInput naming `where` unless source and a known mark are there."""
    text, mark = row.get("source"), row.get("mark")
    if not isinstance(text, str) or not text.strip():
        raise BadInput(f"{where} has no source; say where the figure comes from")
    if mark not in tuple(Mark):
        known = ", ".join(Mark)
        raise BadInput(f"{where} has the mark {mark!r}; it is one of: {known}")
    return Source(text, Mark(mark))
