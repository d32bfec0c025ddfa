"""What can be logged of an animal or an enclosure: short forms at once, longer ones unfold."""

from __future__ import annotations

from collections.abc import Iterator

from warmside.core.asking.ask import Ask
from warmside.core.kinds.kind import Subject
from warmside.core.record.entities import Animal, Enclosure
from warmside.core.values.errors import NotFound
from warmside.faces.web.markup import Child, Markup, element, joined
from warmside.page.forms import FIELD, choice_buttons, known_fields, record_form
from warmside.page.frame import hidden, post
from warmside.page.screens.round_screen import stops_seen
from warmside.page.visit import Visit, address

MEAL = "fed"
OF_ANIMAL = ("weighed", "shed", "defecated", "observed", "sign")
OF_ENCLOSURE = ("watered", "cleaned", "misted")
AT_ONCE = ("weighed", "observed")
"""Kinds with a field to type at once; the others unfold."""


def animal_log(visit: Visit, ask: Ask, animal: Animal, back: str, *, many: bool) -> Markup:
    """The forms of an animal; what a card of the round asks for is not offered twice."""
    title = f"Log: {animal.name}" if many else "Log"
    stops = stops_seen(ask, visit.rights, ask.book.today)
    asked = {s.task.settles for s in stops if s.task.about.animal_id == animal.id}
    kinds = tuple(k for k in OF_ANIMAL if k not in asked)
    meal = _meal(visit, ask, animal, back, again=MEAL not in asked)
    forms = [meal, *_forms(visit, ask, kinds, animal.code, animal.name, back)]
    return element("section", element("h2", title), forms, class_="log")


def place_log(visit: Visit, ask: Ask, place: Enclosure, back: str) -> Markup:
    """The forms of an enclosure."""
    forms = list(_forms(visit, ask, OF_ENCLOSURE, place.code, place.name, back))
    return element("section", element("h2", f"Log: {place.name}"), forms, class_="log")


def _meal(visit: Visit, ask: Ask, animal: Animal, back: str, *, again: bool) -> Child:
    """The last meal again, or that it was refused: one tap; another meal has its whole form."""
    kind, display = ask.kind(MEAL), ask.book.home.display
    if not visit.rights.may_record(kind.name):
        return None
    form = record_form(kind, animal.code, animal.name, back, display, whole=True)
    other = element("details", element("summary", "Another meal"), form)
    last = ask.book.latest_of(animal.id, kind.name).get(kind.name)
    if last is None or not again:
        return other
    outcome = kind.field("outcome")
    data = {name: value for name, value in last.data.items() if name != outcome.name}
    said = kind.line(data, display).partition(": ")[2]
    sent = hidden(back, kind=kind.name, subject=animal.code, **known_fields(kind, data))
    lead = element("p", f"As last time: {said}", class_="lead")
    buttons = choice_buttons(outcome, f"{FIELD}{outcome.name}", animal.name)
    return [post("/record", sent, lead, buttons), other]


def _forms(
    visit: Visit, ask: Ask, kinds: tuple[str, ...], code: str, who: str, back: str
) -> Iterator[Markup]:
    """A short form for each kind that this phone may record."""
    display = ask.book.home.display
    for name in kinds:
        if visit.rights.may_record(name):
            kind = ask.kind(name)
            form = record_form(kind, code, who, back, display, whole=name == "sign")
            simple = name in AT_ONCE or not kind.fields or kind.subject is Subject.ENCLOSURE
            title = kind.title.capitalize()
            yield form if simple else element("details", element("summary", title), form)


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
    wanted = Subject.ENCLOSURE if of_place else Subject.ANIMAL
    links = [
        element("li", element("a", k.title.capitalize(), href=f"/log/{code}/{k.name}"))
        for k in ask.kinds.values()
        if k.subject is wanted
    ]
    return joined([element("h1", f"Log: {who}"), element("ul", links, class_="plain")])


def _subject(ask: Ask, code: str) -> tuple[str, str, str, bool]:
    """Code, name and address of an enclosure or an animal, and whether it is an enclosure."""
    try:
        place = ask.book.enclosure(code)
    except NotFound:
        animal = ask.book.animal(code)
        return animal.code, animal.name, address("A", animal.code), False
    return place.code, place.name, address("E", place.code), True
