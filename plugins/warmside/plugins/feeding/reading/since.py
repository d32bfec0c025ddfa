"""Since when the record tells of an animal's meals."""

from __future__ import annotations

from datetime import date, datetime

from warmside.api import Book

CAME = ("kept", "arrived", "returned")


def entered_late(book: Book, animal_id: int, on: date) -> date | None:
    """The home day on which it was entered, where it came before that; else None.

    An animal that came years ago and was entered today ate all the while, and nobody wrote it down.
    """
    came = book.events(*CAME, animal=animal_id, until=on)
    if not came:
        return None
    ((at,),) = book.rows("SELECT at FROM step WHERE id = ?", (came[-1].step_id,))
    entered = datetime.fromisoformat(at).astimezone(book.home.zone).date()
    return entered if came[-1].day < entered else None
