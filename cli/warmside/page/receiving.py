"""How much a request may bring before the page sees it: a picture only from a paired phone.

Waitress takes a body whole onto the disk before it calls the page; without this, anybody in the
network could fill it.
"""

from __future__ import annotations

from copy import copy
from typing import TYPE_CHECKING, Any

from waitress.channel import HTTPChannel
from waitress.parser import HTTPRequestParser
from werkzeug.http import parse_cookie

from warmside.core.values.errors import WarmsideError
from warmside.page.phones.doors import COOKIE
from warmside.page.pieces.picture_forms import UPLOADS
from warmside.page.posts.pictures import MOST_UPLOAD

if TYPE_CHECKING:
    from warmside.page.app import Page


def channel_of(page: Page) -> Any:
    """The class of a connection that lets paired phones send pictures."""

    class Parser(HTTPRequestParser):  # type: ignore[misc]
        adj: Any

        def parse_header(self, header_plus: bytes) -> None:
            super().parse_header(header_plus)
            upload = self.command == "POST" and self.path == UPLOADS
            if upload and is_paired(page, self.headers.get("COOKIE", "")):
                self.adj = copy(self.adj)
                self.adj.max_request_body_size = MOST_UPLOAD + 1

    class Channel(HTTPChannel):  # type: ignore[misc]
        parser_class = Parser

    return Channel


def is_paired(page: Page, header: str) -> bool:
    """Whether the cookie of a request is that of a paired phone."""
    try:
        cookie = parse_cookie(header).get(COOKIE, "")
        return page.devices.of(cookie, page.now()) is not None
    except WarmsideError:
        return False
