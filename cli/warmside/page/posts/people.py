"""Posts of the people's screen: a code for another phone, for a sitter, taking one off the list."""

from __future__ import annotations

from werkzeug.utils import redirect
from werkzeug.wrappers import Response

from warmside.core.values.hints import plain_text
from warmside.faces.web.markup import Markup
from warmside.page.phones.inviting import checked_name, sitters_rights
from warmside.page.phones.people import Rights
from warmside.page.screens.people_screen import people_screen
from warmside.page.visits.visit import Visit


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
