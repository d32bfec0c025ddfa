"""A task of the round as a card: who, what, until when, why, and what settles it in one tap."""

from __future__ import annotations

from datetime import date

from warmside.core.asking.ask import Ask
from warmside.core.asking.pictures.parts import strip_of
from warmside.core.asking.pictures.portraits import portraits
from warmside.core.asking.rounds.round import Stop
from warmside.core.asking.rounds.round_told import when_words, why_words
from warmside.core.asking.sheets.steps import steps_here
from warmside.core.doing.rounds.settled_by import open_fields
from warmside.core.kinds.fields import FieldSpec, Form
from warmside.core.kinds.kind import EventKind
from warmside.core.record.entities import Animal, Enclosure
from warmside.faces.web.markup import Child, Markup, element, unbroken
from warmside.page.pieces.forms import choice_buttons, field_input, record_form
from warmside.page.pieces.frame import hidden, post
from warmside.page.pieces.sitters_words import how
from warmside.page.visits.visit import address, picture_address


def task_card(
    ask: Ask, stop: Stop, on: date, back: str, *, titled: bool = True, sitter: bool = False
) -> Markup:
    """The card; `titled` says whom it is about, where the screen does not.

    A sitter sees by a picture which of two that look alike is meant, and how the keeper does it.
    """
    book, task = ask.book, stop.task
    animal = book.animals.get(task.about.animal_id or 0)
    place = book.enclosures.get(stop.enclosure_id or 0)
    who = animal.name if animal else (place.name if place else "")
    where = f" · {place.code}" if place and animal else ""
    to = address("E", place.code) if place else (address("A", animal.code) if animal else None)
    name = element("a", f"{who}{where}", href=to) if to and titled else None
    when = when_words(stop, on)
    head = element("h3", name, element("span", unbroken(task.what)), class_="what")
    late = element("p", when.removeprefix("! "), class_="late" if when[:1] == "!" else "when")
    why = why_words(stop)
    return element(
        "article",
        _face(ask, animal, place) if sitter else None,
        head,
        late if when else None,
        _how(ask, animal, place) if sitter else None,
        _controls(ask, stop, who, back),
        element("details", element("summary", "Why"), element("p", unbroken(why))) if why else None,
        class_="task",
    )


def _face(ask: Ask, animal: Animal | None, place: Enclosure | None) -> Child:
    """The newest photo of the animal, else of the enclosure; nothing where there is none."""
    book = ask.book
    of_animal = book.pictures_of(animal=animal.id) if animal else []
    of_place = book.pictures_of(enclosure=place.id) if place else []
    photos = portraits((*of_place, *of_animal))
    if not photos:
        return None
    (shot,) = strip_of(photos[-1:]).shots
    # whose it is stands beside it
    return element("img", src=f"{picture_address(shot)}?small=1", alt="", class_="face")


def _how(ask: Ask, animal: Animal | None, place: Enclosure | None) -> Child:
    """The keeper's steps, folded; nothing where there are none."""
    found = steps_here(ask, place, [animal] if animal else [])
    return element("details", element("summary", "How"), how(found, "h4")) if found else None


def _controls(ask: Ask, stop: Stop, who: str, back: str) -> Child:
    task = stop.task
    if not task.settles:
        if ask.host.takes(stop.plugin, "warmside_settle", "task"):
            said = f"Done: {task.what}, {who}"
            done = element("button", "Done", aria_label=said)
            return _settle(stop, back, _asked_value(stop, who), done)
        return (
            element("p", "At the desk: ", element("code", task.command)) if task.command else None
        )
    return _by_event(ask, stop, ask.kind(task.settles), who, back)


def _asked_value(stop: Stop, who: str) -> Child:
    """A line for what a task asks for that its plugin settles; nothing where it asks nothing."""
    if not stop.task.asks:
        return None
    said, example = stop.task.asks
    line = element("input", name="value", required=True, placeholder=example, autocomplete="off")
    aside = element("span", f", {who}", class_="hidden")
    return element("label", element("span", said[:1].upper() + said[1:], aside), line)


def _by_event(ask: Ask, stop: Stop, kind: EventKind, who: str, back: str) -> Child:
    """Buttons where words settle it, a field where a number does."""
    display = ask.book.home.display
    needed, others = open_fields(kind, stop)
    if len(needed) > 1:  # more than one value: the whole form
        about = stop.task.about
        animal = ask.book.animals.get(about.animal_id or 0)
        place = ask.book.enclosures.get(stop.enclosure_id or 0)
        code = animal.code if animal else (place.code if place else "")
        return record_form(kind, code, who, back, display)
    spec = needed[0] if needed else _worded(others)
    if spec is None:
        said = f"Done: {stop.task.what}, {who}"
        return _settle(stop, back, element("button", "Done", aria_label=said))
    if spec.form is Form.CHOICE:
        return _settle(stop, back, choice_buttons(spec, "value", who))
    save = element("button", "Save", aria_label=f"Save: {stop.task.what}, {who}")
    return _settle(stop, back, field_input(spec, who, display, "value"), save)


def _worded(fields: list[FieldSpec]) -> FieldSpec | None:
    """The first open field with a usual word, such as what came of a meal."""
    return next((s for s in fields if s.form is Form.CHOICE and s.default is not None), None)


def _settle(stop: Stop, back: str, *controls: Child) -> Markup:
    return post("/settle", hidden(back, task=stop.key), controls)
