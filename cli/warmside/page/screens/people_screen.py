"""Phones and sitters: who is paired, a code for another, and taking one off the list."""

from __future__ import annotations

from warmside.core.answers.parts import Answer
from warmside.core.values.quantities import Display
from warmside.faces.look import Look
from warmside.faces.web.html import render_html
from warmside.faces.web.markup import Child, Markup, element, joined
from warmside.page.frame import hidden, post
from warmside.page.people import Device, Invitation
from warmside.page.qr import qr_drawing
from warmside.page.visit import Visit


def people_screen(visit: Visit, made: Invitation | None = None) -> Markup:
    """The list and its forms; above them the code that was just made."""
    devices = visit.page.devices.all()
    items = [_item(visit, device) for device in devices]
    return joined(
        [
            element("h1", "Phones and people"),
            _invited(visit, made) if made else None,
            element("ul", items, class_="steps"),
            _pair_form(),
            _sitter_form(),
        ]
    )


def _item(visit: Visit, device: Device) -> Markup:
    rights = device.rights
    until = f" to the end of {rights.last_day}" if rights.ends else ""
    only = f", only {', '.join(rights.enclosures)}" if rights.enclosures else ""
    mine = " (this phone)" if device.id == visit.device.id else ""
    name = element("p", f"{device.name}{mine}")
    said = element("div", name, element("small", f"{rights.role.value}{until}{only}"))
    button = element("button", "Forget", class_="plain", aria_label=f"Forget {device.name}")
    return element("li", said, post("/people/forget", hidden("/people", name=device.id), button))


def _invited(visit: Visit, made: Invitation) -> Markup:
    """The code in words and as a QR; it is shown once, for only its digest is kept."""
    url = f"{visit.request.host_url}pair?c={made.code}"
    look = Look(80, Display.METRIC, made.expires.tzinfo)  # type: ignore[arg-type]
    drawing = render_html(Answer("", (qr_drawing("", url),)), look, drawing_width=240)
    return element(
        "section",
        element(
            "p", f"Scan this with the phone of {made.name}, within ten minutes; it pairs one phone."
        ),
        element("div", drawing, class_="qr"),
        element(
            "p",
            "Or open ",
            element("code", f"{visit.request.host_url}pair"),
            " and type ",
            element("code", made.code),
        ),
        class_="banner",
        role="status",
    )


def _pair_form() -> Markup:
    field = element("input", name="name", required=True, autocomplete="off", maxlength=40)
    return element(
        "section",
        element("h2", "Another phone of a keeper"),
        post(
            "/people/pair",
            hidden("/people"),
            _label("Whose phone", field),
            element("button", "Make a code"),
        ),
    )


def _sitter_form() -> Markup:
    fields: list[Child] = [
        _label(
            "Name", element("input", name="name", required=True, autocomplete="off", maxlength=40)
        ),
        _label("Until and with", element("input", name="until", type="date", required=True)),
        _label(
            "Only these enclosures, by code (empty: all)",
            element("input", name="only", autocomplete="off"),
        ),
        _label("Whom to call", element("input", name="call", autocomplete="off", maxlength=200)),
        _label(
            "What never to do", element("input", name="never", autocomplete="off", maxlength=400)
        ),
    ]
    return element(
        "section",
        element("h2", "A sitter"),
        post(
            "/people/sitter",
            hidden("/people"),
            fields,
            element("button", "Make a sitter's code"),
            class_="whole",
        ),
    )


def _label(words: str, control: Markup) -> Markup:
    return element("label", element("span", words), control)
