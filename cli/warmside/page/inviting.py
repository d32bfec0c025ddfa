"""Codes for other phones, for sitters with an end and limits, and taking phones off the list."""

from __future__ import annotations

from datetime import datetime, time, timedelta

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
) -> Rights:
    """What a sitter may do: to the end of a day, in these enclosures, of these kinds."""
    last = parse_day(until, book.now, book.home.zone, book.home.dates)
    if last < book.today:
        raise BadInput(f"{last} is over; say until when the sitter comes")
    midnight = datetime.combine(last + timedelta(days=1), time(), book.home.zone)
    codes = tuple(dict.fromkeys(book.enclosure(code).code for code in only))
    return Rights(Role.SITTER, midnight, codes, kinds or SITTERS_KINDS, call, never)


def post_pair(visit: Visit) -> Markup:
    """A code for another phone of a keeper."""
    name = checked_name(visit.typed("name"))
    made = visit.page.devices.invite(name, Rights(), visit.page.now())
    return people_screen(visit, made)


def post_sitter(visit: Visit) -> Markup:
    """A code for a sitter's phone."""
    name = checked_name(visit.typed("name"))
    only = tuple(visit.typed("only").replace(",", " ").split())
    with visit.session.read() as book:
        words = [plain_text(what, visit.typed(what)) for what in ("call", "never")]
        rights = sitters_rights(book, visit.typed("until"), only, (), *words)
    made = visit.page.devices.invite(name, rights, visit.page.now())
    return people_screen(visit, made)


def post_forget(visit: Visit) -> Response:
    """Take a phone off the list; its next request is refused."""
    visit.page.devices.forget(visit.typed("name"))
    return redirect("/people", 303)
