"""Search, and a field for a code that was typed from a label."""

from __future__ import annotations

import re
from collections.abc import Iterator
from urllib.parse import unquote

from warmside.core.record.book import Book
from warmside.faces.web.markup import Markup, element, joined
from warmside.page.visits.visit import Visit, address, home_code

_LABEL = re.compile(r"(?:.*[/?#=\s])?WS\.([EA])\.([^/?#&=\s]+)", re.IGNORECASE)
Hit = tuple[str, str]  # address, words


def found_at(visit: Visit, typed: str) -> str | None:
    """The address that was meant where a whole code or name was typed; None where none was."""
    label = _LABEL.fullmatch(typed)
    if label:
        return address(label[1].upper(), unquote(label[2]).upper())
    with visit.ask() as ask:
        hits = [to for to, words in _hits(visit, ask.book, typed) if _is_whole(words, typed)]
    return hits[0] if len(hits) == 1 else None


def found_screen(visit: Visit, typed: str) -> Markup:
    """The field, and all that has the words in its code, name or species."""
    field = element(
        "input",
        name="q",
        value=typed,
        autocomplete="off",
        autocapitalize="characters",
        enterkeyhint="go",
    )
    words = "Code on a label, name or species"
    form = element(
        "form",
        element("label", element("span", words), field),
        element("button", "Go"),
        method="get",
        action="/find",
        class_="row",
    )
    with visit.ask() as ask:
        hits = list(_hits(visit, ask.book, typed))
    links = [element("li", element("a", words, href=to)) for to, words in hits]
    listed = (
        element("ul", links, class_="plain")
        if links
        else element("p", f"Nothing is called {typed!r} here.")
    )
    return joined([element("h1", "Find"), form, listed])


def _hits(visit: Visit, book: Book, typed: str) -> Iterator[Hit]:
    """Enclosures in use and animals that are here, by code; all of them for an empty text."""
    wanted = typed.casefold()
    for place in sorted(book.enclosures.values(), key=lambda e: e.code):
        words = f"{place.code} – {place.name}"
        seen = visit.rights.may_see(place.code) and not place.retired
        if seen and wanted in words.casefold():
            yield address("E", place.code), words
    here = book.animals_here(book.today)
    for animal in sorted(book.animals.values(), key=lambda a: a.code):
        words = f"{animal.code} – {animal.name}, {animal.species.common}"
        if wanted in f"{words} {animal.species.scientific}".casefold() and (
            visit.rights.may_see(home_code(book, animal.id))
            if animal.id in here
            else visit.rights.is_keeper
        ):
            yield address("A", animal.code), words


def _is_whole(words: str, typed: str) -> bool:
    code, _, rest = words.partition(" – ")
    names = {code.casefold(), rest.split(", ")[0].casefold()}
    return typed.casefold() in names
