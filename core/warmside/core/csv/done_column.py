"""A list that was filled in by hand: only rows that are marked as done hold an event."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from warmside.core.values.errors import BadInput
from warmside.core.values.hints import quoted

DONE = "done"
"""The name of the column; where a mapping uses it otherwise, it is a column like any other."""
OUTCOME = "outcome"
_YES = frozenset({"x", "xx", "y", "yes", "done", "ok", "1", "✓", "✔", "☑", "true"})
_NO = frozenset({"", "n", "no", "not", "-", "–", "0", "☐", "false"})


def column_of_done(columns: Iterable[str], used: Iterable[str]) -> str:
    """The column that says what was done; empty where there is none."""
    taken = set(used)
    return next((c for c in columns if c.strip().casefold() == DONE and c not in taken), "")


def is_done(cells: Mapping[str, str], column: str) -> bool:
    """Whether a row is marked as done; what came of it says so, too.

    Raises BadInput for a word that is neither yes nor no.
    """
    word = cells[column].strip().casefold()
    if word in _YES:
        return True
    if word in _NO:
        return not word and bool(cells.get(OUTCOME, "").strip())
    raise BadInput(f"done is yes, no or blank, not {quoted(cells[column])}")
