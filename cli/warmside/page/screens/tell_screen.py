"""What can be asked: answering commands of core and plugins as forms, and their answers."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from warmside.core.answers.parts import Answer
from warmside.core.values.errors import WarmsideError
from warmside.faces.web.html import render_html
from warmside.faces.web.markup import Child, Markup, element, joined, unbroken
from warmside.page.pieces.asking_forms import asking_form
from warmside.page.pieces.page_words import told
from warmside.page.pieces.shown import PHONE, on_a_phone
from warmside.page.visits.asked import Asked
from warmside.page.visits.questions import all_commands, command_named, given_in, question_address
from warmside.page.visits.visit import Visit, links_of, look_of, picture_address


def tell_screen(visit: Visit, words: str) -> Markup:
    """All that can be asked, or the form of one command with its answer once it is filled in."""
    if not words:
        return _listed(all_commands(visit))
    command = command_named(visit, words)
    given = given_in(visit, command)
    lacking = [b for b in command.blanks if b.required and not given[b.name]]
    wanted = bool(visit.asked("go")) or not command.blanks
    shown = (
        _answer(visit, command, given) if wanted and not lacking and not command.target else None
    )
    return joined(
        [
            element("h1", words.capitalize()),
            element("p", command.help),
            asking_form(visit, command, given),
            shown,
        ]
    )


def _listed(commands: Sequence[Asked]) -> Markup:
    groups = groupby(commands, lambda c: c.words.split()[0])
    folded = [_group(group, list(found)) for group, found in groups]
    return joined([element("h1", "What can be asked"), folded])


def _group(group: str, commands: Sequence[Asked]) -> Markup:
    """The questions of one plugin, folded under its name."""
    links = [
        element(
            "li",
            element("a", _within(group, command.words), href=question_address(command.words)),
            element("small", command.help),
        )
        for command in commands
    ]
    named = ", ".join(_within(group, c.words).lower() for c in commands)
    hint = element("small", named if len(commands) > 1 else commands[0].help)
    summary = element("summary", element("span", group.capitalize(), " ", hint))
    return element("details", summary, element("ul", links, class_="plain"), class_="group")


def _within(group: str, words: str) -> str:
    """The words of a command below the name of its group; that name where there are none."""
    return (words.removeprefix(group).strip() or words).capitalize()


def _answer(visit: Visit, command: Asked, given: dict[str, str]) -> Child:
    """The answer, and the way to have it on paper."""
    try:
        answer: Answer = visit.page.commands.answer(command, given, visit.session)
    except WarmsideError as problem:
        return element("p", unbroken(told(str(problem))), class_="caution", role="status")
    with visit.session.read() as book:
        look, link = look_of(book), links_of(book)
        shown = render_html(
            on_a_phone(answer), look, link=link, drawing_width=PHONE, picture=picture_address
        )
    paper = f"/tell.pdf?{visit.request.query_string.decode()}"
    return [
        element("p", element("a", "As a PDF, to print", href=paper, class_="button")),
        shown,
    ]
