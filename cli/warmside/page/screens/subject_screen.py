"""An enclosure or an animal at a glance: who, what is due, what to know, and how to log it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.core.answers.parts import Answer, Fact, Words
from warmside.core.asking.ask import Ask, related
from warmside.core.asking.glance import at_a_glance, concerns_one_of
from warmside.core.asking.put_off import apart
from warmside.core.kinds.kind import Subject
from warmside.core.record.entities import Animal, Enclosure
from warmside.core.values.about import About
from warmside.core.values.errors import NotFound
from warmside.faces.web.html import render_html
from warmside.faces.web.markup import Child, Markup, element, joined
from warmside.page.finding_list import finding_list
from warmside.page.forms import FIELD, choice_buttons, known_fields, record_form
from warmside.page.frame import hidden, post
from warmside.page.screens.round_screen import stops_seen
from warmside.page.task_cards import task_card
from warmside.page.visit import Visit, address, links_of, look_of

OF_ANIMAL = ("weighed", "shed", "defecated", "observed", "sign")
OF_ENCLOSURE = ("watered", "cleaned", "misted")
AT_ONCE = ("weighed", "observed")
"""Kinds with a field to type at once; the others unfold."""


def enclosure_screen(visit: Visit, code: str) -> Markup:
    """The enclosure, each of its animals, and what can be logged of them."""
    return visit.cached(("E", code.upper()), lambda: _enclosure(visit, code))


def animal_screen(visit: Visit, code: str) -> Markup:
    """The animal with its home's tasks."""
    return visit.cached(("A", code.upper()), lambda: _animal(visit, code))


def _enclosure(visit: Visit, code: str) -> Markup:
    with visit.ask() as ask:
        place = visit.enclosure(ask.book, code)
        about, back = About(enclosure_id=place.id), address("E", place.code)
        inside = [ask.book.animals[a] for a in ask.book.occupants().get(place.id, ())]
        logs = [_animal_log(visit, ask, animal, back, many=len(inside) > 1) for animal in inside]
        log = [*logs, _place_log(visit, ask, place, back)]
        return joined(
            [_glance(visit, ask, about, back, len(inside) != 1), log, _more(visit, place.code)]
        )


def _animal(visit: Visit, code: str) -> Markup:
    with visit.ask() as ask:
        animal = visit.animal(ask.book, code)
        back = address("A", animal.code)
        home = ask.book.whereabouts_of(animal.id, ask.book.today).enclosure_id
        place = ask.book.enclosures.get(home or 0)
        logs = [_animal_log(visit, ask, animal, back, many=False)]
        logs += [_place_log(visit, ask, place, back)] if place else []
        return joined(
            [_glance(visit, ask, About(animal.id), back, False), logs, _more(visit, animal.code)]
        )


def _glance(visit: Visit, ask: Ask, about: About, back: str, titled: bool) -> Child:
    """The answer of a glance: who lives there, cards in the place of its tasks, facts folded."""
    book, today = ask.book, ask.book.today
    answer = at_a_glance(ask, about, today)
    facts = tuple(p for p in answer.parts if isinstance(p, Fact) and p.key != "kind")
    first = [p for p in answer.parts if isinstance(p, Words) or getattr(p, "key", "") == "animals"]
    look, link = look_of(book), links_of(book)
    subjects = related(book, about, today)
    due = [s for s in stops_seen(ask, visit.rights, today) if concerns_one_of(s, subjects)]
    cards = [task_card(ask, s, today, back, titled=titled) for s in due]
    said = cards or element("p", "Nothing is due, have a look.")
    never = _never(ask, subjects, today)
    found = apart(book, ask.findings(today, about), today)[0] if visit.rights.is_keeper else []
    told = render_html(Answer("", facts), look, link=link)
    return [
        render_html(Answer(answer.title, tuple(first)), look, link=link),
        finding_list(book, found),
        element("p", element("strong", "Never: "), never, class_="caution") if never else None,
        element("details", element("summary", "Facts"), told),
        element("h2", "Due"),
        said,
    ]


def _never(ask: Ask, subjects: list[About], on: date) -> str:
    """What plugins and the keeper say never to do here."""
    lines = [line for about in subjects for line in ask.label_lines(about, on)]
    return "; ".join(dict.fromkeys(x.text for x in lines if x.key.endswith(".do-not")))


def _animal_log(visit: Visit, ask: Ask, animal: Animal, back: str, *, many: bool) -> Markup:
    title = f"Log: {animal.name}" if many else "Log"
    forms = [
        _meal(visit, ask, animal, back),
        *_forms(visit, ask, OF_ANIMAL, animal.code, animal.name, back),
    ]
    return element("section", element("h2", title), forms, class_="log")


def _meal(visit: Visit, ask: Ask, animal: Animal, back: str) -> Child:
    """The last meal again, or that it was refused: one tap; another meal has its whole form."""
    kind = ask.kind("fed")
    if not visit.rights.may_record(kind.name):
        return None
    meals = ask.book.latest_of(animal.id, kind.name).get(kind.name)
    other = element(
        "details",
        element("summary", "Another meal"),
        record_form(kind, animal.code, animal.name, back, ask.book.home.display, whole=True),
    )
    if meals is None:
        return other
    outcome = kind.field("outcome")
    known = known_fields(kind, {k: v for k, v in meals.data.items() if k != outcome.name})
    said = kind.line(
        {k: v for k, v in meals.data.items() if k != outcome.name}, ask.book.home.display
    )
    buttons = choice_buttons(outcome, f"{FIELD}{outcome.name}", animal.name)
    sent = hidden(back, kind=kind.name, subject=animal.code, **known)
    lead = element("p", f"As last time: {said.partition(': ')[2] or said}", class_="lead")
    return [post("/record", sent, lead, buttons), other]


def _place_log(visit: Visit, ask: Ask, place: Enclosure, back: str) -> Markup:
    forms = list(_forms(visit, ask, OF_ENCLOSURE, place.code, place.name, back))
    return element("section", element("h2", f"Log: {place.name}"), forms, class_="log")


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


def _more(visit: Visit, code: str) -> Child:
    if not visit.rights.is_keeper:
        return None
    ways = (
        (f"/report/{code}", "Whole story"),
        (f"/history/{code}", "History"),
        (f"/log/{code}", "Log more"),
    )
    return element(
        "p", [element("a", words, href=to, class_="button") for to, words in ways], class_="row"
    )


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
    wanted = (Subject.ENCLOSURE,) if of_place else (Subject.ANIMAL,)
    kinds = [k for k in ask.kinds.values() if k.subject in wanted]
    links = [
        element("li", element("a", k.title.capitalize(), href=f"/log/{code}/{k.name}"))
        for k in kinds
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
