"""Pairing a phone: opening the address shows a button, only pressing it uses up the code."""

from __future__ import annotations

from werkzeug.utils import redirect
from werkzeug.wrappers import Request, Response

from warmside.faces.web.markup import element
from warmside.page.phones.doors import COOKIE
from warmside.page.pieces.frame import plain, screen
from warmside.page.visits.served import Served

A_YEAR = 365 * 86_400  # seconds a cookie lasts; how long it is good for, the list of phones says


def pairing(page: Served, request: Request) -> Response:
    """The form, or the paired phone: a camera that looks at an address beforehand pairs nothing."""
    if request.method != "POST":
        return _form(request.args.get("c", ""))
    address = request.remote_addr or ""
    if not page.throttle.allows(address):
        words = "Too many wrong codes. Wait a minute, then try again."
        return screen(None, "Wait", plain("Wait", words), status=429)
    paired = page.devices.pair(request.form.get("code", ""), page.now())
    if paired is None:
        page.throttle.wrong(address)
        return _form(
            "", "That code is wrong or used up. Ask for a new one: warmside page pair", 403
        )
    device, cookie = paired
    response = redirect("/", 303)
    ends = device.rights.ends
    lasts = min(A_YEAR, int((ends - page.now()).total_seconds())) if ends else A_YEAR
    secure = request.headers.get("Origin", "").startswith("https://")
    response.set_cookie(COOKIE, cookie, max_age=lasts, httponly=True, samesite="Lax", secure=secure)
    return response


def _form(code: str, problem: str = "", status: int = 200) -> Response:
    field = element(
        "input",
        name="code",
        value=code,
        autocomplete="off",
        autocapitalize="characters",
        required=True,
    )
    form = element(
        "form",
        element("label", element("span", "Code"), field),
        element("button", "Pair this phone"),
        method="post",
        action="/pair",
        class_="row",
    )
    said = element("p", problem, class_="caution", role="alert") if problem else None
    body = [element("h1", "Pair this phone"), said, form]
    return screen(None, "Pair", *body, status=status)
