"""Forms made from the declarations of kinds, so that kinds of plugins have theirs without code."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from warmside.core.kinds.fields import FieldSpec, Form
from warmside.core.kinds.kind import EventKind
from warmside.core.values.display import Display
from warmside.core.values.measures.measure import measure_of
from warmside.faces.web.markup import Child, Markup, element
from warmside.page.pieces.frame import hidden, post

FIELD = "f."
MOST_BUTTONS = 8
"""So many choices fit a phone as buttons; more are a list."""


def as_typed(spec: FieldSpec, value: Any) -> str:
    """A stored value as it may be typed again, nothing lost; empty for none."""
    if value is None or value == ():
        return ""
    if spec.unit is not None:
        name = measure_of(spec.unit).scales[0].names[0]
        return f"{value!r} {name}".strip()
    if isinstance(value, tuple | list):
        return ",".join(map(str, value))
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value)


def known_fields(kind: EventKind, data: Mapping[str, Any]) -> dict[str, str]:
    """Fields whose values are known, as a form sends them; references are left to the form."""
    open_to_all = [s for s in kind.fields if s.form is not Form.REFERENCE]
    typed = {f"{FIELD}{s.name}": as_typed(s, data.get(s.name)) for s in open_to_all}
    return {name: text for name, text in typed.items() if text}


def record_form(
    kind: EventKind, subject: str, who: str, back: str, display: Display, *, whole: bool = False
) -> Markup:
    """A form that records one event; with `whole` all its fields, else those that are needed.

    A kind that asks only for one of a few words, or for nothing, is a row of buttons.
    """
    fields = list(kind.fields) if whole else [s for s in kind.fields if s.required]
    sent = hidden(back, kind=kind.name, subject=subject)
    choice = _as_buttons(kind, fields, whole)
    if choice is not None:
        inputs = [field_input(s, who, display) for s in fields if s is not choice]
        lead = element("p", kind.title.capitalize(), class_="lead")
        buttons = choice_buttons(choice, f"{FIELD}{choice.name}", who)
        return post("/record", sent, lead, inputs, buttons)
    inputs = [field_input(s, who, display) for s in fields]
    note = _note(who) if whole else None
    label = "Save" if inputs else kind.title.capitalize()
    said = f"{label}: {kind.title}, {who}"
    class_ = "whole" if whole else "row"
    button = element("button", label, aria_label=said, class_=None if inputs else "plain")
    return post("/record", sent, inputs, note, button, class_=class_)


def _as_buttons(kind: EventKind, fields: list[FieldSpec], whole: bool) -> FieldSpec | None:
    """The field whose words are the buttons of a short form."""
    if whole:
        return None
    wanted = [s for s in fields if s.form is Form.CHOICE] or [
        s for s in kind.fields if s.form is Form.CHOICE and s.default is not None
    ]
    first = wanted[0] if wanted else None
    return first if first is not None and len(first.choices) <= MOST_BUTTONS else None


def choice_buttons(spec: FieldSpec, name: str, who: str) -> list[Markup]:
    """A button for each word, the usual one first and filled."""
    return [
        element(
            "button",
            word,
            name=name,
            value=word,
            class_="plain" if number else None,
            aria_label=f"{word}, {who}",
        )
        for number, word in enumerate(spec.choices)
    ]


def field_input(spec: FieldSpec, who: str, display: Display, name: str = "") -> Markup:
    """The input of one field, with its label."""
    name = name or f"{FIELD}{spec.name}"
    match spec.form:
        case Form.CHOICE:
            return _labelled(spec, who, _select(spec, name))
        case Form.CHOICES:
            return _boxes(spec, name)
        case Form.YESNO:
            box = element("input", type="checkbox", name=name, value="yes")
            return element("label", box, spec.help, class_="box")
        case Form.QUANTITY | Form.WHOLE:
            mode = "decimal" if spec.form is Form.QUANTITY else "numeric"
            return _labelled(spec, who, _text(name, spec, inputmode=mode), symbol_of(spec, display))
        case Form.DAY | Form.CLOCK:
            kind = "date" if spec.form is Form.DAY else "time"
            return _labelled(spec, who, _text(name, spec, type=kind))
        case _:
            return _labelled(spec, who, _text(name, spec))


def symbol_of(spec: FieldSpec, display: Display) -> str:
    """What a number without a unit means here: `g`, `°C`; nothing for plain numbers."""
    return display.style(spec.unit).table.symbol if spec.unit is not None else ""


def _labelled(spec: FieldSpec, who: str, control: Markup, symbol: str = "") -> Markup:
    words = spec.help[:1].upper() + spec.help[1:] + (f" ({symbol})" if symbol else "")
    aside = element("span", f", {who}", class_="hidden")
    return element("label", element("span", words, aside), control)


def _text(name: str, spec: FieldSpec, **more: str) -> Markup:
    return element(
        "input",
        name=name,
        required=spec.required,
        autocomplete="off",
        enterkeyhint="done",
        **more,
    )


def _select(spec: FieldSpec, name: str) -> Markup:
    first = [] if spec.default is not None else [element("option", "–", value="")]
    words = [element("option", w, selected=w == spec.default) for w in spec.choices]
    return element("select", first, words, name=name, required=spec.required)


def _boxes(spec: FieldSpec, name: str) -> Markup:
    boxes = [
        element("label", element("input", type="checkbox", name=name, value=w), w, class_="box")
        for w in spec.choices
    ]
    return element("fieldset", element("legend", spec.help), boxes)


def _note(who: str) -> Child:
    words = element("span", "Note", element("span", f", {who}", class_="hidden"))
    when = element("span", "When (empty: now)")
    box = element("input", name="at", autocomplete="off", placeholder="yesterday, 08:30")
    note = element("input", name="note", autocomplete="off", enterkeyhint="done")
    return [element("label", words, note), element("label", when, box)]
