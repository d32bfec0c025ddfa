"""Which animals have events of a kind: queries name them, so that the index of animals is used."""

from __future__ import annotations

import json
from datetime import date

from warmside.api import Book

OF_THESE = "animal_id IN (SELECT value FROM json_each(?))"
"""The clause that takes what `whose` gives; ten thousand ancestors without events are in none."""


def whose(book: Book, kind: str, until: date) -> str:
    """The ids of the animals with an event of a kind up to a day, as a JSON list."""
    return json.dumps(list(book.latest(kind, on=until)[kind]))
