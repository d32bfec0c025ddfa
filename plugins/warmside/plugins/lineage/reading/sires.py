"""Who may be the sire of a clutch, by the matings on record."""

from __future__ import annotations

from datetime import date, timedelta

from warmside.api import Animal, Ask

STORED_DAYS = 365
"""So long before laying a mating may count; stored sperm can last for years, which is said."""


def mates(ask: Ask, dam: Animal, laid: date) -> list[Animal]:
    """The males that she mated with in the year before, the last one first."""
    since = laid - timedelta(days=STORED_DAYS)
    found: dict[int, date] = {}
    for event in ask.book.events("mated", since=since, until=laid):
        both = (event.animal_id, event.data.get("partner_animal_id"))
        if dam.id in both:
            other = both[1] if both[0] == dam.id else both[0]
            if other is not None and ask.book.animals[other].sex != "female":
                found[other] = event.day
    order = sorted(found, key=lambda id: found[id], reverse=True)
    return [ask.book.animals[id] for id in order]
