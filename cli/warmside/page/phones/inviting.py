"""Whom a code is made for, and what a sitter may do: from when until when, where, and what."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

from warmside.core.record.book import Book
from warmside.core.values.errors import BadInput
from warmside.core.values.hints import plain_text
from warmside.core.values.moments import parse_day
from warmside.page.phones.people import SITTERS_KINDS, Rights, Role

LONGEST_NAME = 40


def checked_name(name: str) -> str:
    """The name of whoever has a phone; it stands in the history."""
    name = " ".join(plain_text("the name", name).split())
    if not 0 < len(name) <= LONGEST_NAME:
        raise BadInput(f"say whose phone it is, in at most {LONGEST_NAME} letters")
    return name


def sitters_rights(
    book: Book,
    until: str,
    only: tuple[str, ...] = (),
    kinds: tuple[str, ...] = (),
    call: str = "",
    never: str = "",
    first: str = "",
) -> Rights:
    """What a sitter may do: from a day to the end of another, in these enclosures, of these kinds.

    Without a first day at once.
    """
    last = _day(book, until)
    begins = _day(book, first) if first else book.today
    if last < book.today:
        raise BadInput(f"{last} is over; say until when the sitter comes")
    if last < begins:
        raise BadInput(f"{last} is before {begins}; say from when until when the sitter comes")
    codes = tuple(dict.fromkeys(book.enclosure(code).code for code in only))
    begin = _midnight(book, begins) if begins > book.today else None
    end = _midnight(book, last + timedelta(days=1))
    return Rights(Role.SITTER, end, codes, kinds or SITTERS_KINDS, call, never, begin)


def _day(book: Book, text: str) -> date:
    return parse_day(text, book.now, book.home.zone, book.home.dates)


def _midnight(book: Book, day: date) -> datetime:
    """When a day begins in home time."""
    return datetime.combine(day, time(), book.home.zone)
