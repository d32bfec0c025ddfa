"""A phone that asks a page in this process, without a network, and a clock that tests turn."""

from __future__ import annotations

import re
from datetime import datetime, timedelta
from html import unescape
from typing import Any
from urllib.parse import urlencode

from werkzeug.test import Client, TestResponse

from warmside.page.app import Page
from warmside.page.phones.people import Rights

HOST = "rack.test:8420"
ORIGIN = f"http://{HOST}"


class Clock:
    """The time of the page, which tests let go by."""

    def __init__(self, now: datetime) -> None:
        self.now = now
        self.seconds = 0.0

    def pass_time(self, **by: float) -> None:
        """Let time go by, in seconds, minutes, hours or days."""
        self.now += timedelta(**by)
        self.seconds += timedelta(**by).total_seconds()


class Phone:
    """A browser that keeps its cookie, and fills in forms that it was shown."""

    def __init__(self, page: Page) -> None:
        self.client = Client(page)
        self.page = page

    def get(self, path: str, **more: Any) -> TestResponse:
        """What an address shows."""
        return self.client.get(path, base_url=f"http://{HOST}", **more)

    def send(
        self, path: str, fields: dict[str, str], origin: str | None = ORIGIN, **headers: str
    ) -> TestResponse:
        """A post, as a browser sends it from this page unless another origin is said."""
        sent = dict(headers) | ({"Origin": origin} if origin is not None else {})
        kind = "application/x-www-form-urlencoded"
        return self.client.post(
            path, base_url=f"http://{HOST}", data=urlencode(fields), content_type=kind, headers=sent
        )

    def pair(self, rights: Rights | None = None, name: str = "Ann") -> Phone:
        """This phone, paired."""
        made = self.page.devices.invite(name, rights or Rights(), self.page.now())
        assert self.send("/pair", {"code": made.code}).status_code == 303
        return self

    def form(self, path: str, *having: str) -> dict[str, str]:
        """The hidden fields of the first form of a screen in which all these texts stand."""
        found = form_in(self.get(path).text, *having)
        assert found, f"no form with {having} on {path}"
        return found

    def fill(self, path: str, *having: str, **fields: str) -> TestResponse:
        """Fill in a form and send it; `f_mass_g` fills `f.mass_g`."""
        form = self.form(path, *having)
        action = form.pop("")
        named = {n.replace("f_", "f.", 1): v for n, v in fields.items()}
        return self.send(action, {n: _plain(v) for n, v in form.items()} | named)


def _plain(text: str) -> str:
    return unescape(text)


def words_of(answer: TestResponse) -> str:
    """What is to be read of a screen, without its markup."""
    return unescape(re.sub(r"<[^>]*>", "", answer.text))


def form_in(text: str, *having: str) -> dict[str, str]:
    """The hidden fields of the first form with all these texts, and its address; else nothing."""
    for form in re.findall(r"<form.*?</form>", text, re.DOTALL):
        if all(h in form for h in having):
            fields = re.findall(r'<input type="hidden" name="([^"]*)" value="([^"]*)">', form)
            action = re.search(r'action="([^"]*)"', form)
            assert action
            return dict(fields) | {"": action[1]}
    return {}
