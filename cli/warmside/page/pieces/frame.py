"""The frame of every screen: head, ways to other screens, what was just recorded, the body.

What differs from phone to phone and from form to form stands in the body as a mark, so that one
body may be kept for all; the marks are control characters, which no text of a collection becomes.
"""

from __future__ import annotations

import re
import secrets

from werkzeug.wrappers import Response

from warmside.faces.web.markup import Child, Markup, element, joined
from warmside.page.phones.people import Device, Role

TOKEN_MARK, REF_MARK = "\x01token\x01", "\x01ref\x01"
TOKEN = Markup(f'<input type="hidden" name="token" value="{TOKEN_MARK}">')
REF = Markup(f'<input type="hidden" name="ref" value="{REF_MARK}">')
WAYS = (("/", "Round"), ("/find", "Find"), ("/history", "History"))
SITTERS_WAYS = (*WAYS, ("/help", "Help"))
KEEPERS_WAYS = (*WAYS, ("/tell", "More"), ("/people", "People"))


def screen(
    device: Device | None,
    title: str,
    *body: Child,
    token: str = "",
    banner: Child = None,
    here: str = "",
    status: int = 200,
) -> Response:
    """A whole page."""
    head = element(
        "head",
        element("meta", charset="utf-8"),
        element("title", f"{title} – Warmside"),
        element("meta", name="viewport", content="width=device-width, initial-scale=1"),
        element("meta", name="color-scheme", content="light dark"),
        element("link", rel="stylesheet", href="/style.css"),
        element("script", src="/page.js", defer=True),
        element("script", src="/pictures.js", defer=True),
    )
    main = element("main", banner, body, id="main")
    body_ = element("body", _skip(), _header(device, here), main, _footer(device))
    page = element("html", head, body_, lang="en")
    return Response(filled(f"<!doctype html>{page}", token), status=status, mimetype="text/html")


def filled(page: str, token: str) -> str:
    """The page with its phone's token, and a reference of its own in each form."""
    page = page.replace(TOKEN_MARK, token)
    return re.sub(REF_MARK, lambda _: secrets.token_hex(12), page)


def _skip() -> Markup:
    return element("a", "To the content", href="#main", class_="skip")


def _header(device: Device | None, here: str) -> Child:
    if device is None:
        return None
    ways = KEEPERS_WAYS if device.rights.is_keeper else SITTERS_WAYS
    links = [
        element("a", words, href=to, aria_current="page" if to == here else None)
        for to, words in ways
    ]
    return element("header", element("nav", links, aria_label="Main"))


def _footer(device: Device | None) -> Child:
    if device is None:
        return None
    sitter = ", sitter" if device.rights.role is Role.SITTER else ""
    return element("footer", f"This phone: {device.name}{sitter}")


def hidden(back: str, **values: str) -> list[Markup]:
    """What each form that posts carries, and more fields that nobody sees."""
    rest = {"back": back, **values}
    more = [element("input", type="hidden", name=n, value=v) for n, v in rest.items()]
    return [TOKEN, REF, *more]


def post(action: str, *children: Child, class_: str = "row") -> Markup:
    """A form that posts."""
    return element("form", children, method="post", action=action, class_=class_)


def plain(title: str, *lines: str) -> Markup:
    """A heading and paragraphs."""
    return joined([element("h1", title), [element("p", line) for line in lines]])
