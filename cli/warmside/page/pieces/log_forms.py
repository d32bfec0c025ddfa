"""What can be logged of an animal or an enclosure: short forms at once, longer ones unfold."""

from __future__ import annotations

from collections.abc import Iterator

from warmside.core.asking.ask import Ask
from warmside.core.kinds.kind import Subject
from warmside.core.record.entities import Animal, Enclosure
from warmside.faces.web.markup import Child, Markup, element
from warmside.page.pieces.forms import FIELD, choice_buttons, known_fields, record_form
from warmside.page.pieces.frame import hidden, post
from warmside.page.visits.seen import stops_seen
from warmside.page.visits.visit import Visit

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
