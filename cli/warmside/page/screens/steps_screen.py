"""Where a keeper says how a sitter does it, and sees it as the sitter will."""

from __future__ import annotations

from warmside.core.asking.sheets.steps import steps_of
from warmside.core.record.book import Book
from warmside.core.record.entities import Animal, Enclosure
from warmside.core.values.errors import NotFound
from warmside.faces.web.markup import Markup, element, joined
from warmside.page.pieces.frame import hidden, post
from warmside.page.pieces.sitters_words import how
from warmside.page.visits.visit import Visit

FIELD = "Steps, one a line; a line that begins with Never is set apart"
PICTURES = "A picture of it whose words are “step 2” is shown beside the second step."


def steps_screen(visit: Visit, code: str) -> Markup:
    """The steps of one animal or enclosure, to be changed."""
    with visit.ask() as ask:
        subject = subject_named(ask.book, code)
        found = steps_of(ask, subject)
    lines = [*(s.words for s in found.steps), *found.never] if found else []
    field = element("textarea", "\n".join(lines), name="steps", rows="8")
    form = post(
        "/steps",
        hidden(f"/steps/{subject.code}", subject=subject.code),
        element("label", element("span", FIELD), field),
        element("button", "Save"),
        class_="whole",
    )
    title = element("h1", f"For a sitter: {subject.name}")
    return joined([title, form, element("p", PICTURES), how([found]) if found else None])


def subject_named(book: Book, code: str) -> Animal | Enclosure:
    """The enclosure of that code or name, else the animal."""
    try:
        return book.enclosure(code)
    except NotFound:
        return book.animal(code)
