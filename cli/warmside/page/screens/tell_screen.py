"""What plugins tell: their answering commands as forms, and the answers."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from urllib.parse import urlencode

from warmside.core.answers.parts import Answer
from warmside.core.values.errors import NotFound, WarmsideError
from warmside.faces.web.html import render_html
from warmside.faces.web.markup import Child, Markup, element, joined
from warmside.page.asked import Asked, Blank
from warmside.page.frame import hidden, post
from warmside.page.screens.history_screen import PHONE
from warmside.page.shown import on_a_phone
from warmside.page.visit import Visit, links_of, look_of, picture_address

BLANK = "p."


def tell_screen(visit: Visit, words: str) -> Markup:
    """All that can be asked, or the form of one command with its answer once it is filled in."""
    if not words:
        return _listed(_all(visit))
    command = command_named(visit, words)
    given = {b.name: visit.asked(f"{BLANK}{b.name}") for b in command.blanks}
    lacking = [b for b in command.blanks if b.required and not given[b.name]]
    ready = (
        not lacking
        and not command.target
        and (bool(visit.request.args.get("go")) or not command.blanks)
    )
    shown: Child = _answer(visit, command, given) if ready else None
    return joined(
        [
            element("h1", words.capitalize()),
            element("p", command.help),
            _form(command, given),
            shown,
        ]
    )


def _all(visit: Visit) -> Sequence[Asked]:
    return visit.cached("commands", lambda: visit.page.commands.all(visit.session))


def command_named(visit: Visit, words: str) -> Asked:
    """The command that is called by these words; NotFound where the page has none."""
    found = next((c for c in _all(visit) if c.words == words), None)
    if found is None:
        raise NotFound("the page has no such question; plugins may have been switched off")
    return found


def _listed(commands: Sequence[Asked]) -> Markup:
    sections = []
    for plugin, group in groupby(commands, lambda c: c.words.split()[0]):
        links = [
            element(
                "li",
                element("a", command.words, href=f"/tell?{urlencode({'ask': command.words})}"),
                element("small", command.help),
            )
            for command in group
        ]
        sections.append(
            element(
                "section", element("h2", plugin.capitalize()), element("ul", links, class_="plain")
            )
        )
    return joined(
        [element("h1", "What plugins tell"), sections or element("p", "No plugin is at work.")]
    )


def _answer(visit: Visit, command: Asked, given: dict[str, str]) -> Child:
    try:
        answer: Answer = visit.page.commands.answer(command, given, visit.session)
    except WarmsideError as problem:
        return element("p", str(problem), class_="caution", role="status")
    with visit.session.read() as book:
        return render_html(
            on_a_phone(answer),
            look_of(book),
            link=links_of(book),
            drawing_width=PHONE,
            picture=picture_address,
        )


def _form(command: Asked, given: dict[str, str]) -> Child:
    if not command.blanks and not command.target:
        return None
    sent = [
        element("input", type="hidden", name="ask", value=command.words),
        element("input", type="hidden", name="go", value="1"),
    ]
    needed = [_blank(b, given[b.name]) for b in command.blanks if b.required]
    more = [_blank(b, given[b.name]) for b in command.blanks if not b.required]
    folded = element("details", element("summary", "More"), more) if more and needed else more
    if command.target:
        make = element("button", "Make the PDF")
        return post("/paper", hidden("/tell"), sent, needed, folded, make, class_="whole")
    show = element("button", "Show")
    fields = (sent, needed, folded, show)
    return element("form", fields, method="get", action="/tell", class_="whole")


def _blank(blank: Blank, given: str) -> Markup:
    name = f"{BLANK}{blank.name}"
    words = blank.name.replace("_", " ").capitalize() + (f": {blank.help}" if blank.help else "")
    if blank.flag:
        box = element("input", type="checkbox", name=name, value="yes", checked=given == "yes")
        return element("label", box, words, class_="box")
    if blank.choices:
        options = [element("option", w, selected=w == given) for w in ("", *blank.choices)]
        control = element("select", options, name=name)
    else:
        control = element(
            "input", name=name, value=given, autocomplete="off", required=blank.required
        )
    return element("label", element("span", words), control)
