"""The form for a sitter's code: when, where, what may be recorded, whom to call, what never."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from warmside.core.asking.ask import Ask
from warmside.faces.web.markup import Child, Markup, element
from warmside.page.phones.people import SITTERS_KINDS
from warmside.page.pieces.frame import hidden, post
from warmside.page.visits.visit import Visit

Choice = tuple[str, str, bool]  # value, words, ticked
READ = "A sitter reads besides: “Steps for a sitter” of each animal and enclosure."


def sitter_form(visit: Visit) -> Markup:
    """The form, with the enclosures in use and the kinds that may be ticked."""
    with visit.ask() as ask:
        places = sorted((e.code, e.name) for e in ask.book.enclosures.values() if not e.retired)
        kinds = list(_kinds(ask))
    fields: list[Child] = [
        _label("Name", name="name", required=True, maxlength=40),
        _label("From (empty: at once)", name="first", type="date"),
        _label("Until and with", name="until", type="date", required=True),
        _boxes(
            "Only these enclosures (none: all)",
            "only",
            [(c, f"{c} – {n}", False) for c, n in places],
        ),
        _boxes("What may be recorded", "may", kinds),
        _label("Whom to call", name="call", maxlength=200),
        _label("What never to do", name="never", maxlength=400),
    ]
    button = element("button", "Make a sitter's code")
    form = post("/people/sitter", hidden("/people"), fields, button, class_="whole")
    return element("section", element("h2", "A sitter"), element("p", READ), form)


def _kinds(ask: Ask) -> Iterator[Choice]:
    """What a sitter usually records, ticked; then all else that can be due."""
    for name in SITTERS_KINDS:
        yield name, ask.kind(name).title.capitalize(), True
    for kind in ask.kinds.values():
        if kind.todo and kind.name not in SITTERS_KINDS:
            yield kind.name, kind.title.capitalize(), False


def _boxes(title: str, name: str, choices: Iterable[Choice]) -> Markup:
    ticks = [
        element("label", _box(name, value, ticked), words, class_="box")
        for value, words, ticked in choices
    ]
    return element("details", element("summary", title), ticks)


def _box(name: str, value: str, ticked: bool) -> Markup:
    return element("input", type="checkbox", name=name, value=value, checked=ticked)


def _label(words: str, **field: str | int | bool) -> Markup:
    return element("label", element("span", words), element("input", autocomplete="off", **field))
