"""Since when the record tells of an animal's meals."""

from __future__ import annotations

from datetime import date, datetime

from warmside.api import Book, Whereabouts

_WRITTEN = "SELECT s.at FROM event e JOIN step s ON s.id = e.step_id WHERE e.id = ?"


def entered_on(book: Book, where: Whereabouts) -> date | None:
    """The home day on which it was written where the animal is; None where no record tells.

    An animal that came years ago and was entered today ate all the while, and nobody wrote it down.
    """
    for event in where.events:
        ((at,),) = book.rows(_WRITTEN, (event,))
        return datetime.fromisoformat(at).astimezone(book.home.zone).date()
    return None
