"""What lets a request in: the host it names, where a post comes from, where it may lead back."""

from __future__ import annotations

import hmac
from urllib.parse import urlsplit

from werkzeug.datastructures import Headers

COOKIE = "warmside_page"
HEADERS = {
    # no script, style or picture but ours, nothing outward, in nobody's frame
    "Content-Security-Policy": (
        "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; "
        "connect-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"
    ),
    "Referrer-Policy": "same-origin",  # no-referrer would make the Origin of each form null
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cache-Control": "no-store",
}


def is_our_host(host: str, ours: frozenset[str]) -> bool:
    """Whether the request names this page; another name may be a trick with addresses."""
    return host.lower() in ours


def is_from_our_page(headers: Headers, ours: frozenset[str]) -> bool:
    """Whether a post comes from a form of this page.

    Every browser sends Origin with a post, so a missing one is refused, too. What a browser says
    besides, where it does (not to plain http in a network), must agree.
    """
    site = headers.get("Sec-Fetch-Site")
    if site is not None and site != "same-origin":
        return False
    scheme, _, host = headers.get("Origin", "").lower().partition("://")
    return scheme in ("http", "https") and host in ours


def is_token(given: str, token: str) -> bool:
    """Whether a form carries the token of its phone."""
    return hmac.compare_digest(given.encode("utf-8", "replace"), token.encode())


def local(path: str) -> str:
    """A path of this page to go back to; the round for any other address."""
    plain = path.startswith("/") and not path.startswith(("//", "/\\"))
    if not plain or any(c <= " " or c in "\\\x7f" for c in path) or urlsplit(path).netloc:
        return "/"
    return path
