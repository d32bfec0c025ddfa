"""An enclosure or an animal at a glance: who, what is due, what to know, and how to log it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from warmside.core.answers.parts import Answer, Fact, Words
from warmside.core.asking.ask import Ask, related
from warmside.core.asking.rounds.glance import at_a_glance, concerns_one_of
from warmside.core.asking.rounds.put_off import apart
from warmside.core.asking.sheets.steps import steps_here
from warmside.core.record.entities import Animal, Enclosure
from warmside.core.values.about import About
from warmside.faces.web.html import render_html
from warmside.faces.web.markup import Child, Markup, element, joined, unbroken
from warmside.page.pieces.finding_list import finding_list
from warmside.page.pieces.log_forms import animal_log, place_log
from warmside.page.pieces.picture_forms import pictures_of_animal, pictures_of_place
from warmside.page.pieces.shown import PHONE, on_a_phone
from warmside.page.pieces.sitters_words import calls, cautions, how
from warmside.page.pieces.task_cards import task_card
from warmside.page.visits.questions import question_address
from warmside.page.visits.seen import stops_seen
from warmside.page.visits.visit import Visit, address, links_of, look_of, picture_address


def enclosure_screen(visit: Visit, code: str) -> Markup:
    """The enclosure, each of its animals, and what can be logged of them."""
    return visit.screen(("E", code.upper()), lambda: _enclosure(visit, code))


def animal_screen(visit: Visit, code: str) -> Markup:
    """The animal with its home's tasks."""
    return visit.screen(("A", code.upper()), lambda: _animal(visit, code))


def _enclosure(visit: Visit, code: str) -> Markup:
    with visit.ask() as ask:
        place = visit.enclosure(ask.book, code)
        about, back = About(enclosure_id=place.id), address("E", place.code)
        inside = [ask.book.animals[a] for a in ask.book.occupants().get(place.id, ())]
        logs = [animal_log(visit, ask, animal, back, many=len(inside) > 1) for animal in inside]
        log = [*logs, place_log(visit, ask, place, back)]
        return joined(
            [
                _glance(visit, ask, about, back, len(inside) != 1),
                _for_sitter(visit, ask, place, inside),
                pictures_of_place(visit, ask, place, inside, back),
                log,
                _more(visit, place.code),
            ]
        )


def _animal(visit: Visit, code: str) -> Markup:
    with visit.ask() as ask:
        animal = visit.animal(ask.book, code)
        back = address("A", animal.code)
        home = ask.book.whereabouts_of(animal.id, ask.book.today).enclosure_id
        place = ask.book.enclosures.get(home or 0)
        logs = [animal_log(visit, ask, animal, back, many=False)]
        logs += [place_log(visit, ask, place, back)] if place else []
        about = About(animal.id)
        told = _told(visit, ask, about)
        return joined(
            [
                _glance(visit, ask, about, back, False),
                _for_sitter(visit, ask, place, [animal]),
                pictures_of_animal(visit, ask, animal, back),
                logs,
                told,
                _more(visit, animal.code, animal=True),
            ]
        )


def _for_sitter(
    visit: Visit, ask: Ask, place: Enclosure | None, animals: Sequence[Animal]
) -> Child:
    """How the keeper wants it done, and whom to call."""
    if visit.rights.is_keeper:
        return None
    return [
        how(steps_here(ask, place, animals)),
        calls(ask, visit.rights),
    ]


def _told(visit: Visit, ask: Ask, about: About) -> Child:
    """What plugins tell of an animal: weights, meals, sheds, cases; each unfolds."""
    if not visit.rights.is_keeper:
        return None
    look, link = look_of(ask.book), links_of(ask.book)
    sections = on_a_phone(Answer("", (), tuple(ask.sections(about, ask.book.today)))).sections
    folded = [
        element(
            "details",
            element("summary", s.title),
            render_html(
                Answer("", s.parts), look, link=link, drawing_width=PHONE, picture=picture_address
            ),
        )
        for s in sections
    ]
    return element("section", element("h2", "Told"), folded, class_="log") if folded else None


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
    found = apart(book, ask.findings(today, about), today)[0] if visit.rights.is_keeper else []
    told = render_html(Answer("", facts), look, link=link)
    return [
        render_html(Answer(answer.title, tuple(first)), look, link=link),
        finding_list(book, found),
        _to_mind(visit, ask, subjects, today),
        element("details", element("summary", "Facts"), told),
        element("h2", "Due"),
        said,
    ]


def _to_mind(visit: Visit, ask: Ask, subjects: list[About], on: date) -> Child:
    """What to mind before anything is done here: for a sitter with each animal by its name."""
    if not visit.rights.is_keeper:
        animals = [ask.book.animals[s.animal_id] for s in subjects if s.animal_id is not None]
        return cautions(ask, animals, on)
    never = _never(ask, subjects, on)
    said = element("strong", "Never: "), unbroken(never)
    return element("p", said, class_="caution") if never else None


def _never(ask: Ask, subjects: list[About], on: date) -> str:
    """What plugins and the keeper say never to do here."""
    lines = [line for about in subjects for line in ask.label_lines(about, on)]
    return "; ".join(dict.fromkeys(x.text for x in lines if x.key.endswith(".do-not")))


def _more(visit: Visit, code: str, *, animal: bool = False) -> Child:
    if not visit.rights.is_keeper:
        return None
    ways = [
        (f"/report/{code}", "Whole story"),
        (f"/history/{code}", "History"),
        (f"/log/{code}", "Log more"),
    ]
    if animal:
        ways.append((question_address("sheet vet", animal=code), "Sheet for a vet"))
    ways.append((f"/steps/{code}", "Steps for a sitter"))
    return element(
        "p", [element("a", words, href=to, class_="button") for to, words in ways], class_="row"
    )
