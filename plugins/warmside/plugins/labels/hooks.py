"""The keeper's notes about an animal or enclosure as label lines, which any plugin may ask for."""

from __future__ import annotations

from collections.abc import Iterable

from warmside.api import About, Book, LabelLine, hookimpl
from warmside.plugins.labels.reading.notes import note_lines


@hookimpl
def warmside_label_lines(book: Book, about: About) -> Iterable[LabelLine]:
    """What the keeper noted for the labels of an animal, or of an enclosure."""
    return note_lines(book, about)
