"""The connection that a step writes through; it keeps who tried to end the step from within."""

from __future__ import annotations

import sqlite3
from typing import Any


class StepConnection(sqlite3.Connection):
    """As sqlite3's own; `endings` are the words (COMMIT, ROLLBACK) that a step has refused."""

    def __init__(self, *arguments: Any, **options: Any) -> None:
        super().__init__(*arguments, **options)
        self.endings: list[str] = []


def endings_of(connection: sqlite3.Connection) -> int:
    """How often the step that is written here was to be ended from within; 0 in a snapshot."""
    return len(connection.endings) if isinstance(connection, StepConnection) else 0
