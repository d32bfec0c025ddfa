"""The sitter's list as a table to fill in, whose columns `import` reads as they stand."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

from warmside.core.asking.sheets.sitting import Turn
from warmside.core.kinds.known import Kinds
from warmside.core.record.book import Book

BEFORE = ("date", "kind", "animal", "enclosure")
TO_FILL_IN = ("done", "note")
NEVER_FILLED = "outcome"
"""What came of it only the sitter knows: its column is there, and blank."""


def form(book: Book, kinds: Kinds, turns: Sequence[Turn]) -> str:
    """A row for each task that an event settles, with what is known of it; CSV with a header."""
    settled = [turn for turn in turns if turn.stop.task.settles]
    fields = _fields(kinds, settled)
    out = io.StringIO()
    writer = csv.DictWriter(out, (*BEFORE, *fields, *TO_FILL_IN), restval="", lineterminator="\n")
    writer.writeheader()
    writer.writerows(_row(book, turn, fields) for turn in settled)
    return out.getvalue()


def _fields(kinds: Kinds, turns: Iterable[Turn]) -> tuple[str, ...]:
    """The fields that any task knows, and the outcome where a kind has one."""
    found: dict[str, None] = {}
    for turn in turns:
        task = turn.stop.task
        known = [name for name, value in task.data.items() if _plain(value)]
        names = [spec.name for spec in kinds.named(task.settles).fields]
        found |= dict.fromkeys(n for n in names if n in known or n == NEVER_FILLED)
    return tuple(found)


def _row(book: Book, turn: Turn, fields: Iterable[str]) -> dict[str, object]:
    task = turn.stop.task
    animal = book.animals.get(task.about.animal_id or 0)
    place = book.enclosures.get(turn.stop.enclosure_id or 0)
    row: dict[str, object] = {
        "date": turn.day.isoformat(),
        "kind": task.settles,
        "animal": animal.code if animal else "",
        "enclosure": place.code if place and not animal else "",
    }
    known = {n: v for n, v in task.data.items() if _plain(v) and n != NEVER_FILLED}
    return row | {name: known[name] for name in fields if name in known}


def _plain(value: object) -> bool:
    """Whether a value may stand in a cell as it is."""
    return isinstance(value, str | int | float) and not isinstance(value, bool) and value != ""
