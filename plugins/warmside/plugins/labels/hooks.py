"""The keeper's notes about an animal as label lines, which any plugin may ask for."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from warmside.api import Book, LabelLine, hookimpl
from warmside.plugins.labels.notes import animal_lines


@hookimpl
def warmside_label_lines(book: Book, animal_id: int, on: date) -> Iterable[LabelLine]:
    """What the keeper noted for the labels of an animal."""
    return animal_lines(book, animal_id)
