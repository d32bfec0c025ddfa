"""How large a body the server takes onto its disk: a picture's size from a paired phone alone."""

from __future__ import annotations

import socket
from collections.abc import Iterator

import pytest

from page.browsers import served
from page.phones import Phone
from warmside.page.app import Page
from warmside.page.phones.doors import COOKIE

LARGE = 5_000_000


@pytest.fixture
def url(page: Page) -> Iterator[str]:
    with served(page) as address:
        yield address


def answered(url: str, path: str, cookie: str) -> bytes:
    """What is answered to the head of a large post, before its body is sent."""
    host, _, port = url.removeprefix("http://").rstrip("/").partition(":")
    head = (
        f"POST {path} HTTP/1.1\r\nHost: {host}:{port}\r\nOrigin: {url.rstrip('/')}\r\n"
        f"Cookie: {COOKIE}={cookie}\r\nContent-Type: multipart/form-data; boundary=b\r\n"
        f"Content-Length: {LARGE}\r\n\r\n"
    )
    with socket.create_connection((host, int(port)), timeout=5) as connection:
        connection.sendall(head.encode())
        connection.settimeout(1.0)
        try:
            return connection.recv(100)
        except TimeoutError:
            return b"waits for the body"


def test_only_a_paired_phone_may_send_more_than_a_form(page: Page, phone: Phone, url: str) -> None:
    cookie = phone.client.get_cookie(COOKIE, domain="rack.test")
    assert cookie is not None
    assert answered(url, "/picture", cookie.value) == b"waits for the body"
    assert b"413" in answered(url, "/picture", "nobody.s")
    assert b"413" in answered(url, "/record", cookie.value)
    assert b"413" in answered(url, "/picture", '"\\"')
