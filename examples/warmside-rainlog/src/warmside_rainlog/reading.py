"""Rows of the record as the values that the computation works on."""

from __future__ import annotations

from datetime import date

from sqlalchemy import select

from warmside.api import Book
from warmside_rainlog.rain import Chamber, Shower
from warmside_rainlog.records import RAINED
from warmside_rainlog.tables import chamber


def chambers(book: Book) -> list[Chamber]:
    """The rain chambers, in the order in which they were entered."""
    c = chamber.c
    rows = book.rows(select(c.enclosure_id, c.days, c.minutes, c.since).order_by(c.enclosure_id))
    return [
        Chamber(place, days, minutes, date.fromisoformat(day)) for place, days, minutes, day in rows
    ]


def showers(book: Book, since: date, until: date, enclosure_id: int | None = None) -> list[Shower]:
    """When and how long it rained, oldest first, both days included."""
    events = book.events(RAINED.name, enclosure=enclosure_id, since=since, until=until)
    return [
        Shower(e.enclosure_id, e.day, e.data["minutes"], e.id)
        for e in events
        if e.enclosure_id is not None
    ]
