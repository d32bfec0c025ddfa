"""The form of a command: its blanks, those that it needs first, the others folded."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from warmside.core.record.book import Book
from warmside.faces.web.markup import Child, Markup, element
from warmside.page.pieces.frame import hidden, post
from warmside.page.pieces.page_words import in_page_words, label_of
from warmside.page.visits.asked import Asked, Blank
from warmside.page.visits.questions import BLANK
from warmside.page.visits.visit import Visit

CODES = "codes"
AT_ONCE = 4
"""So many fields are seen at once where none is needed."""


def asking_form(visit: Visit, command: Asked, given: dict[str, str]) -> Child:
    """The form, filled in as it was; nothing where there is nothing to fill in."""
    if not command.blanks and not command.target:
        return None
    sent = [
        element("input", type="hidden", name="ask", value=command.words),
        element("input", type="hidden", name="go", value="1"),
    ]
    first, others = _at_once(command.blanks)
    needed = [_blank(b, given[b.name]) for b in first]
    folded = _folded(others, given)
    known = _known_codes(visit, command.blanks)
    if command.target:
        make = element("button", "Make the PDF")
        return post("/paper", hidden("/tell"), sent, needed, folded, make, known, class_="whole")
    fields = (sent, needed, folded, element("button", "Show"), known)
    return element("form", fields, method="get", action="/tell", class_="whole")


def _at_once(blanks: Sequence[Blank]) -> tuple[list[Blank], list[Blank]]:
    """The blanks that are seen at once, those that are needed or else the first, and the others."""
    needed = [b for b in blanks if b.required]
    first = needed or list(blanks if len(blanks) <= AT_ONCE + 1 else blanks[:AT_ONCE])
    return first, [b for b in blanks if b not in first]


def _folded(blanks: Sequence[Blank], given: Mapping[str, str]) -> Child:
    """The others under one word, unfolded where one of them is filled in."""
    if not blanks:
        return None
    fields = [_blank(b, given[b.name]) for b in blanks]
    filled = any(given[b.name] for b in blanks)
    return element("details", element("summary", "More"), fields, open=filled)


def _blank(blank: Blank, given: str) -> Markup:
    name = f"{BLANK}{blank.name}"
    words = label_of(blank.called or blank.name) + (
        f": {in_page_words(blank.help)}" if blank.help else ""
    )
    if blank.flag:
        box = element("input", type="checkbox", name=name, value="yes", checked=given == "yes")
        return element("label", box, words, class_="box")
    if blank.many:
        words = f"{words.replace('; repeatable', '').rstrip('.')}; one a line"
    return element("label", element("span", words), _control(blank, name, given))


def _control(blank: Blank, name: str, given: str) -> Markup:
    if blank.choices:
        options = [element("option", w, selected=w == given) for w in ("", *blank.choices)]
        return element("select", options, name=name)
    if blank.many:
        return element("textarea", given, name=name, rows="2")
    return element(
        "input",
        name=name,
        value=given,
        autocomplete="off",
        required=blank.required,
        list="-".join((CODES, *blank.codes)) if blank.codes else None,
    )


def _known_codes(visit: Visit, blanks: Iterable[Blank]) -> list[Markup]:
    """The codes that blanks may be filled with: of who is here, and of enclosures in use."""
    wanted = dict.fromkeys(b.codes for b in blanks if b.codes and not b.many)
    if not wanted:
        return []
    with visit.session.read() as book:
        return [
            element(
                "datalist",
                [
                    element("option", name, value=code)
                    for what in kinds
                    for code, name in _of(book, what)
                ],
                id="-".join((CODES, *kinds)),
            )
            for kinds in wanted
        ]


def _of(book: Book, what: str) -> list[tuple[str, str]]:
    if what == "animal":
        here = (book.animals[a] for a in book.animals_here(book.today))
        return sorted((a.code, a.name) for a in here)
    if what == "enclosure":
        return sorted((e.code, e.name) for e in book.enclosures.values() if not e.retired)
    return []
