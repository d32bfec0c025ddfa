"""The set-up of an animal's home and what was logged there, ready for a vet's sheet."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from warmside.api import About, Ask, Section
from warmside.plugins.habitat.reading.describing import described
from warmside.plugins.habitat.reading.loggers import used
from warmside.plugins.habitat.telling.for_vet import section

LOGGED_DAYS = 30


def set_up_here(ask: Ask, enclosure_id: int, on: date) -> Iterator[Section]:
    """Lamps and heat as described, and the least and most that loggers measured within a month."""
    logged = used(ask.book, on, About(enclosure_id=enclosure_id))
    if logged:
        from warmside.plugins.habitat.reading.zones_here import measured  # brings NumPy

        found = measured(ask, enclosure_id, on - timedelta(days=LOGGED_DAYS - 1), on)
    else:
        found = []
    set_up = described(ask.book, enclosure_id, on)
    return section(set_up, found, LOGGED_DAYS, on, ask.book.home.display)
