"""The page as a program of its own, asked over the loopback as a browser asks it."""

from __future__ import annotations

import http.client
import re
import signal
import subprocess
from contextlib import closing
from typing import NamedTuple
from urllib.parse import urlencode


class Told(NamedTuple):
    """What the page answered."""

    status: int
    text: str
    cookie: str


class Served:
    """The page of a running program, at its own address."""

    def __init__(self, process: subprocess.Popen[str]) -> None:
        assert process.stdout is not None
        self.process = process
        self.printed = ""
        while "pair?c=" not in self.printed:
            line = process.stdout.readline()
            assert line, process.communicate()
            self.printed += line
        found = re.search(r"http://127\.0\.0\.1:(\d+)/", self.printed)
        assert found
        self.port = int(found[1])
        self.cookie = ""

    @property
    def code(self) -> str:
        return re.findall(r"pair\?c=(\w+)", self.printed)[0]

    def ask(self, path: str, fields: dict[str, str] | None = None) -> Told:
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=20)
        headers = {"Cookie": self.cookie, "Origin": f"http://127.0.0.1:{self.port}"}
        if fields is None:
            connection.request("GET", path, headers=headers)
        else:
            kind = {"Content-Type": "application/x-www-form-urlencoded"}
            connection.request("POST", path, urlencode(fields), headers | kind)
        with closing(connection), connection.getresponse() as answer:
            cookie = str(answer.headers["Set-Cookie"]).partition(";")[0]
            return Told(answer.status, answer.read().decode(), cookie)

    def text(self, path: str) -> str:
        return self.ask(path).text

    def pair(self, code: str) -> None:
        answer = self.ask("/pair", {"code": code})
        assert answer.status == 303
        self.cookie = answer.cookie

    def token(self) -> str:
        """What the forms of this phone carry."""
        return self.token_at("/WS.E.LOW")

    def token_at(self, path: str) -> str:
        """The same, from a screen that has a form."""
        (found, *_) = re.findall(r'name="token" value="(\w+)"', self.text(path))
        return str(found)

    def stop(self) -> tuple[int, str, str]:
        self.process.send_signal(signal.SIGINT)
        out, err = self.process.communicate(timeout=20)
        return self.process.returncode, out, err
