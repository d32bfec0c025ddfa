"""The words of each step of body condition, by build."""

from __future__ import annotations

from functools import cache

from warmside.api import SourcedRow, sourced_rows


@cache
def condition_rows() -> dict[str, SourcedRow]:
    """The rows by form."""
    return {row["form"]: row for row in sourced_rows("warmside.plugins.signs", "condition")}


def step_words(form: str, score: int) -> str:
    """What a score from 1 to 5 looks like in a build; nothing where the build is not known."""
    row = condition_rows().get(form)
    return row["steps"][score - 1] if row else ""
