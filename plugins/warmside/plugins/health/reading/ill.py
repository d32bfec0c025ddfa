"""Who of those here has a case or a course on record: few or none, found at once."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import About, Book
from warmside.plugins.health.kinds import CASE, COURSE


def ill(book: Book, on: date, about: About | None = None) -> Iterator[int]:
    """Those of whom a case or course is on record up to a day; of one or an enclosure if asked."""
    last = book.latest(CASE, COURSE, on=on)
    if not last[CASE] and not last[COURSE]:
        return
    for animal, where in book.animals_here(on).items():
        if animal in last[CASE] or animal in last[COURSE]:
            place = About(enclosure_id=where.enclosure_id)
            if about is None or about.animal_id == animal or about == place:
                yield animal
