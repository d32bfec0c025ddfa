"""What is on record already, as an import compares its rows with it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from datetime import date

from warmside.core.record.book import Book
from warmside.core.record.event_queries import marks

EventKey = tuple[str, int | None, int | None, str, str | None, str]


def stored_keys(book: Book, kinds: set[str], since: date, until: date) -> Counter[EventKey]:
    """How often each event of these kinds and days is stored, corrected ones too."""
    query = (
        "SELECT kind, animal_id, enclosure_id, day, at, data FROM event "
        f"WHERE day >= ? AND day <= ? AND kind IN ({marks(kinds)})"
    )
    values = (since.isoformat(), until.isoformat(), *sorted(kinds))
    return Counter(book.stream(query, values))


def masses(book: Book, until: date) -> Sequence[tuple[int, str, float]]:
    """Animal, ISO day and grams of every weighing up to a day, oldest first.

    A whole event for each would take ten times as long.
    """
    query = (
        "SELECT animal_id, day, json_extract(data, '$.mass_g') FROM event "
        "WHERE kind = 'weighed' AND replaced_by IS NULL AND day <= ? ORDER BY day, at, id"
    )
    return book.rows(query, (until.isoformat(),))
