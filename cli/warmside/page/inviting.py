"""Codes for other phones, for sitters with an end and limits, and taking phones off the list."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

from werkzeug.utils import redirect
from werkzeug.wrappers import Response

from warmside.core.record.book import Book
from warmside.core.values.errors import BadInput
from warmside.core.values.hints import plain_text
from warmside.core.values.moments import parse_day
from warmside.faces.web.markup import Markup
from warmside.page.people import SITTERS_KINDS, Rights, Role
from warmside.page.screens.people_screen import people_screen
from warmside.page.visit import Visit

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


def post_pair(visit: Visit) -> Markup:
    """A code for another phone of a keeper."""
    name = checked_name(visit.typed("name"))
    made = visit.page.devices.invite(name, Rights(), visit.page.now())
    return people_screen(visit, made)


def post_sitter(visit: Visit) -> Markup:
    """A code for a sitter's phone."""
    name = checked_name(visit.typed("name"))
    form = visit.request.form
    only = tuple(" ".join(form.getlist("only")).replace(",", " ").split())
    with visit.ask() as ask:
        kinds = tuple(ask.kind(name).name for name in form.getlist("may"))
        call, never = (plain_text(what, visit.typed(what)) for what in ("call", "never"))
        until, first = visit.typed("until"), visit.typed("first")
        rights = sitters_rights(ask.book, until, only, kinds, call, never, first)
    made = visit.page.devices.invite(name, rights, visit.page.now())
    return people_screen(visit, made)


def post_forget(visit: Visit) -> Response:
    """Take a phone off the list; its next request is refused."""
    visit.page.devices.forget(visit.typed("name"))
    return redirect("/people", 303)
