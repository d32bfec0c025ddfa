"""What stands in a fact or in a cell of a table: a value and what kind of value it is."""

from __future__ import annotations

from datetime import date, datetime
from enum import StrEnum

from warmside.core.values.basis import Estimate


class Kind(StrEnum):
    """What a cell holds when it is no quantity."""

    TEXT = "text"
    CODE = "code"
    LATIN = "latin"  # a scientific name, set in italics
    DATE = "date"
    MOMENT = "moment"
    YESNO = "yesno"
    LIST = "list"  # a tuple of short texts or numbers


Cell = str | int | float | bool | date | datetime | Estimate | tuple[str | int, ...] | None
"""What a fact or a cell of a table may hold; None is shown as a dash."""
