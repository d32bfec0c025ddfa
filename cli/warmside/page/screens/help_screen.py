"""What a sitter does when something is wrong, and what nobody does."""

from __future__ import annotations

from warmside.core.answers.parts import Answer, Section, Words
from warmside.core.asking.sheets import sitter_words
from warmside.core.asking.sheets.given import beside, parts_at
from warmside.core.plugins.sheets import SitterPlace
from warmside.faces.web.html import render_html
from warmside.faces.web.markup import Markup, element, joined
from warmside.page.pieces.sitters_words import calls, given_to
from warmside.page.visits.visit import Visit, links_of, look_of, picture_address


def help_screen(visit: Visit) -> Markup:
    """What to do when something is wrong, and what nobody does; the same for all who sit."""
    return visit.screen("help", lambda: _help(visit))


def _help(visit: Visit) -> Markup:
    with visit.ask() as ask:
        given = given_to(ask, visit.rights)
        at = SitterPlace
        never = tuple(Words(f"– {text}") for text in sitter_words.NEVER)
        signs = tuple(Words(f"– {text}") for text in sitter_words.SIGNS)
        sections = (
            Section("What if", sitter_words.what_if(), at.IF),
            Section("Call when an animal", signs, at.SIGNS),
            Section("Each day", (Words(sitter_words.LOOKING), Words(sitter_words.HANDS)), at.HOW),
            *beside(given, at.CALL, at.NEVER),
            Section("Never", (*parts_at(given, at.NEVER), *never), at.NEVER),
            Section("Where this comes from", (Words(sitter_words.SOURCES),), at.LAST),
        )
        told = Answer("", (sitter_words.caution(),), sections)
        look, link = look_of(ask.book), links_of(ask.book)
        shown = render_html(told, look, link=link, picture=picture_address)
        return joined([element("h1", "If something is wrong"), calls(ask, visit.rights), shown])
