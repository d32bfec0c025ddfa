"""Phones and sitters: who is paired, a code for another, and taking one off the list."""

from __future__ import annotations

from warmside.core.answers.parts import Answer
from warmside.core.record.book import Book
from warmside.core.record.entities import Step
from warmside.core.values.moments import local_text
from warmside.core.values.quantities import Display
from warmside.faces.look import Look
from warmside.faces.web.html import render_html
from warmside.faces.web.markup import Markup, element, joined
from warmside.page.phones.people import Device, Invitation
from warmside.page.phones.qr import qr_drawing
from warmside.page.pieces.frame import hidden, post
from warmside.page.pieces.sitter_form import sitter_form
from warmside.page.visits.done_before import SEARCHED
from warmside.page.visits.visit import Visit


def people_screen(visit: Visit, made: Invitation | None = None) -> Markup:
    """The list and its forms; above them the code that was just made."""
    devices = visit.page.devices.all()
    with visit.session.read() as book:
        last = {step.by: _last(book, step) for step in reversed(book.steps(SEARCHED))}
    items = [_item(visit, device, last.get(device.name)) for device in devices]
    return joined(
        [
            element("h1", "Phones and people"),
            _invited(visit, made) if made else None,
            element("ul", items, class_="steps"),
            _pair_form(),
            sitter_form(visit),
        ]
    )


def _last(book: Book, step: Step) -> str:
    """What somebody did last, and when."""
    when = local_text(step.at.astimezone(book.home.zone).date(), step.at, book.home.zone)
    return f"last: {step.words}, {when}"


def _item(visit: Visit, device: Device, last: str | None) -> Markup:
    rights = device.rights
    since = f" from {rights.begins.date()}" if rights.begins else ""
    until = f"{since} to the end of {rights.last_day}" if rights.ends else ""
    only = f", only {', '.join(rights.enclosures)}" if rights.enclosures else ""
    mine = " (this phone)" if device.id == visit.device.id else ""
    name = element("p", f"{device.name}{mine}")
    may = element("small", f"{rights.role.value}{until}{only}")
    said = element("div", name, may, element("br"), element("small", last) if last else None)
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


def _label(words: str, control: Markup) -> Markup:
    return element("label", element("span", words), control)
