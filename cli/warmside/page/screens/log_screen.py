"""All that may be recorded of a subject, each with its whole form."""

from __future__ import annotations

from collections.abc import Sequence

from warmside.core.asking.ask import Ask
from warmside.core.kinds.kind import EventKind, Subject
from warmside.core.values.errors import NotFound
from warmside.faces.web.markup import Markup, element, joined
from warmside.page.pieces.forms import record_form
from warmside.page.visits.visit import Visit, address


def log_screen(visit: Visit, code: str, kind_name: str) -> Markup:
    """All kinds that may be recorded of a subject, or the whole form of one of them."""
    with visit.ask() as ask:
        code, who, to, of_place = _subject(ask, code)
        if not kind_name:
            return _kinds(ask, code, who, of_place)
        kind = ask.kind(kind_name)
        form = record_form(kind, code, who, to, ask.book.home.display, whole=True)
        doc = kind.help or (kind.record.__doc__ or "").strip()
        return joined([element("h1", f"{kind.title.capitalize()}: {who}"), element("p", doc), form])


def _kinds(ask: Ask, code: str, who: str, of_place: bool) -> Markup:
    """What was recorded of it before comes first, the others under one word; by their titles."""
    wanted = Subject.ENCLOSURE if of_place else Subject.ANIMAL
    kinds = sorted((k for k in ask.kinds.values() if k.subject is wanted), key=lambda k: k.title)
    known = _recorded(ask, code, kinds, of_place)
    before = [k for k in kinds if k.name in known]
    others = _links(code, [k for k in kinds if k.name not in known])
    if not before:
        return joined([element("h1", f"Log: {who}"), others])
    folded = element("details", element("summary", "Others"), others)
    return joined([element("h1", f"Log: {who}"), _links(code, before), folded])


def _recorded(ask: Ask, code: str, kinds: Sequence[EventKind], of_place: bool) -> set[str]:
    """The kinds of which something is on record of it."""
    names = [k.name for k in kinds]
    if not of_place:
        return set(ask.book.latest_of(ask.book.animal(code).id, *names))
    place = ask.book.enclosure(code).id
    return {name for name, latest in ask.book.latest_in(*names).items() if place in latest}


def _links(code: str, kinds: Sequence[EventKind]) -> Markup:
    items = [
        element("li", element("a", k.title.capitalize(), href=f"/log/{code}/{k.name}"))
        for k in kinds
    ]
    return element("ul", items, class_="plain")


def _subject(ask: Ask, code: str) -> tuple[str, str, str, bool]:
    """Code, name and address of an enclosure or an animal, and whether it is an enclosure."""
    try:
        place = ask.book.enclosure(code)
    except NotFound:
        animal = ask.book.animal(code)
        return animal.code, animal.name, address("A", animal.code), False
    return place.code, place.name, address("E", place.code), True
