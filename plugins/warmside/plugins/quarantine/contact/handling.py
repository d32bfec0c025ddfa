"""Residents that were handled after a quarantined animal on the same day.

Residents come first, quarantined animals last, so that hands and tools carry nothing across.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime

from msgspec import Struct


class Handling(Struct, frozen=True):
    """An animal handled at a local time (midnight: time not known), and whether in quarantine.

    `suspect` where a positive result of it stands, or mites were seen on it.
    """

    animal_id: int
    code: str
    at: datetime
    quarantined: bool
    event_id: int
    suspect: bool = False


class OutOfOrder(Struct, frozen=True):
    """A resident handled after a quarantined animal, with the last such one before it."""

    resident: Handling
    after: Handling


def residents_after_quarantined(handlings: Iterable[Handling]) -> tuple[OutOfOrder, ...]:
    """Each resident's first handling of a day that came after a quarantined animal's.

    Handlings at the same moment, or on a day without times, are not taken as one after the other.
    """
    found: dict[tuple[date, int], OutOfOrder] = {}
    last: Handling | None = None
    for handling in sorted(handlings, key=lambda h: (h.at, h.quarantined, h.event_id)):
        if handling.quarantined:
            last = handling
        elif last is not None and last.at.date() == handling.at.date():
            key = (handling.at.date(), handling.animal_id)
            found.setdefault(key, OutOfOrder(handling, last))
    return tuple(found.values())
