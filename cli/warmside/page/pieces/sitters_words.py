"""What a sitter reads beside a task: the keeper's steps with pictures, never, whom to call."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from datetime import date

from warmside.core.answers.parts import Section, Words
from warmside.core.asking.ask import Ask
from warmside.core.asking.sheets import sitter_words
from warmside.core.asking.sheets.given import given_for, parts_at
from warmside.core.asking.sheets.residents import is_venomous, minds, residents
from warmside.core.asking.sheets.steps import Steps
from warmside.core.plugins.sheets import Sheet, SitterPlace
from warmside.core.record.entities import Animal
from warmside.core.values.about import About
from warmside.faces.web.markup import Child, Markup, element
from warmside.page.phones.people import Rights
from warmside.page.visits.visit import home_code, picture_address

NUMBER = re.compile(r"\+?\d[\d /()-]{4,}\d")
USUAL = "Note what you see. If an animal looks ill, or you are unsure, call; do not treat it."


def given_to(ask: Ask, rights: Rights) -> list[Section]:
    """What plugins say to a sitter, of those alone whom this one looks after."""
    today = ask.book.today
    some = looked_after(ask, rights) if rights.enclosures else None
    return given_for(ask, Sheet.SITTER, today, rights.last_day or today, some)


def looked_after(ask: Ask, rights: Rights) -> list[Animal]:
    """The animals here that somebody may see."""
    book = ask.book
    return [a for a in residents(ask, book.today) if rights.may_see(home_code(book, a.id))]


def sitters_words(ask: Ask, rights: Rights) -> Child:
    """Until when the sitter looks after them, what never to do, and whom to call."""
    last = element("time", str(rights.last_day))
    until = ["You look after them to the end of ", last, "."] if rights.ends else None
    house = [p.text.removeprefix("– ") for p in _words(ask, rights, SitterPlace.NEVER)]
    never = "; ".join([*([rights.never] if rights.never else []), *house])
    return [
        element("p", until) if until else None,
        element("p", f"Never: {never}", class_="caution") if never else None,
        element("p", USUAL),
        calls(ask, rights),
    ]


def calls(ask: Ask, rights: Rights) -> Child:
    """Whom to call: as the keeper said for this sitter, and as the house says; by a tap."""
    lines = [*([rights.call] if rights.call else [])]
    lines += [part.text for part in _words(ask, rights, SitterPlace.CALL)]
    return [element("p", element("strong", "Call: ", _dialled(line))) for line in lines]


def _words(ask: Ask, rights: Rights, place: SitterPlace) -> list[Words]:
    return [p for p in parts_at(given_to(ask, rights), place) if isinstance(p, Words)]


def _dialled(line: str) -> Iterator[Child]:
    """The line, with each number in it to be called by a tap."""
    end = 0
    for found in NUMBER.finditer(line):
        digits = re.sub(r"[^\d+]", "", found[0])
        yield line[end : found.start()]
        yield element("a", found[0], href=f"tel:{digits}", class_="call")
        end = found.end()
    yield line[end:]


def cautions(ask: Ask, animals: Iterable[Animal], on: date) -> Child:
    """What a stranger must mind with each: danger by its species first, then the keeper's words."""
    told: list[Markup] = []
    for animal in animals:
        home = ask.book.whereabouts(on)[animal.id].enclosure_id
        about = [About(animal.id), *([About(enclosure_id=home)] if home else [])]
        lines = [sitter_words.VENOMOUS] if is_venomous(animal) else []
        lines += list(minds(ask, animal, about, on))
        told += [
            element("p", f"{animal.name}: {x}", class_="caution") for x in dict.fromkeys(lines)
        ]
    return told


def how(found: Iterable[Steps], heading: str = "h2") -> Child:
    """The steps as numbered lists, each with its picture; what is never done apart."""
    return [_of_one(steps, heading) for steps in found]


def _of_one(steps: Steps, heading: str) -> Markup:
    items = []
    for number, step in enumerate(steps.steps, 1):
        shot: Child = None
        if step.shot:
            address = picture_address(step.shot)
            image = element("img", src=f"{address}?small=1", alt=f"step {number}", loading="lazy")
            shot = element("a", image, href=address)
        items.append(element("li", element("span", step.words), shot))
    never = [element("p", text, class_="caution") for text in steps.never]
    listed = element("ol", items, class_="how") if items else None
    return element("section", element(heading, f"How: {steps.who}"), never, listed)
