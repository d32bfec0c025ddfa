"""Paired phones and open invitations, in a file of their own that only its owner may read.

Apart from the collection, which is handed on and backed up: whoever gets a copy gets no key. Of
codes and cookies only digests are kept. The page and the command line share the file, so that
what is changed at the desk holds for the next request.
"""

from __future__ import annotations

import hashlib
import hmac
import os
import secrets
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import datetime, timedelta
from pathlib import Path

import msgspec

from warmside.core.values.errors import FileProblem, NotFound
from warmside.core.values.hints import near_miss
from warmside.page.phones.people import Device, Invitation, Rights

LETTERS = "ABCDEFGHJKMNPQRSTVWXYZ23456789"  # none that is taken for another
CODE_LETTERS = 10  # 49 bits, with five tries a minute and ten minutes
CODE_LASTS = timedelta(minutes=10)
_TABLES = """
CREATE TABLE IF NOT EXISTS secret (id INTEGER PRIMARY KEY CHECK (id = 1), value TEXT NOT NULL);
CREATE TABLE IF NOT EXISTS device (
    id TEXT PRIMARY KEY, name TEXT NOT NULL, rights TEXT NOT NULL, digest TEXT NOT NULL,
    paired TEXT NOT NULL);
CREATE TABLE IF NOT EXISTS invitation (
    digest TEXT PRIMARY KEY, name TEXT NOT NULL, rights TEXT NOT NULL, expires TEXT NOT NULL);
"""


class Devices:
    """The phones of one collection; threads and programs may share it."""

    def __init__(self, path: Path) -> None:
        self.path = path

    @contextmanager
    def _open(self, *, writes: bool = False) -> Iterator[sqlite3.Connection]:
        try:
            self._make()
            with closing(sqlite3.connect(self.path, timeout=5)) as connection, connection:
                connection.execute("BEGIN IMMEDIATE" if writes else "BEGIN")
                yield connection
        except (OSError, sqlite3.Error) as error:
            raise FileProblem(
                f"cannot use the list of paired phones {self.path}: {error}"
            ) from error

    def _make(self) -> None:
        if self.path.exists():
            return
        self.path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        os.close(os.open(self.path, os.O_CREAT | os.O_RDWR, 0o600))
        with closing(sqlite3.connect(self.path)) as connection:
            connection.executescript(_TABLES)
            made = "INSERT OR IGNORE INTO secret (id, value) VALUES (1, ?)"
            with connection:
                connection.execute(made, (secrets.token_hex(32),))

    def invite(self, name: str, rights: Rights, now: datetime) -> Invitation:
        """A new code for one phone; whoever is paired by it has a name that nobody else has."""
        code = "".join(secrets.choice(LETTERS) for _ in range(CODE_LETTERS))
        made = Invitation(code, name, rights, now + CODE_LASTS)
        row = (_digest(code), name, _text(rights), made.expires.isoformat())
        with self._open(writes=True) as connection:
            connection.execute("INSERT INTO invitation VALUES (?, ?, ?, ?)", row)
        return made

    def pair(self, code: str, now: datetime) -> tuple[Device, str] | None:
        """The phone that a code pairs, and its cookie; None for a code that is none any more."""
        digest = _digest(code.strip().upper().replace("-", ""))
        cookie = secrets.token_urlsafe(32)
        with self._open(writes=True) as connection:
            query = "DELETE FROM invitation WHERE digest = ? RETURNING name, rights, expires"
            found = connection.execute(query, (digest,)).fetchone()
            gone = "DELETE FROM invitation WHERE expires <= ?"
            connection.execute(gone, (now.isoformat(),))
            if found is None or datetime.fromisoformat(found[2]) <= now:
                return None
            name = _free_name(
                found[0], {r[0] for r in connection.execute("SELECT name FROM device")}
            )
            id = secrets.token_hex(4)
            device = Device(id, name, _rights(found[1]), _digest(cookie), now)
            row = (id, name, found[1], device.digest, now.isoformat())
            connection.execute("INSERT INTO device VALUES (?, ?, ?, ?, ?)", row)
        return device, f"{id}.{cookie}"

    def of(self, cookie: str, now: datetime) -> Device | None:
        """The phone that sent a cookie; None for one that is not paired, or whose time is up."""
        id, _, token = cookie.partition(".")
        device = next((d for d in self.all() if d.id == id), None)
        if device is None or not hmac.compare_digest(device.digest, _digest(token)):
            return None
        return None if device.rights.over(now) else device

    def all(self) -> list[Device]:
        """The paired phones, by name."""
        if not self.path.exists():
            return []
        with self._open() as connection:
            rows = connection.execute("SELECT id, name, rights, digest, paired FROM device")
            found = [
                Device(r[0], r[1], _rights(r[2]), r[3], datetime.fromisoformat(r[4])) for r in rows
            ]
        return sorted(found, key=lambda d: d.name.casefold())

    def forget(self, name: str) -> Device:
        """Take a phone off the list, by name or number; its next request is refused."""
        known = self.all()
        found = next((d for d in known if name.casefold() in (d.id, d.name.casefold())), None)
        if found is None:
            names = [d.name for d in known]
            there = f"; paired are: {', '.join(names)}" if names else "; none is paired"
            raise NotFound(f"no phone is called {name!r}{near_miss(name, names)}{there}")
        with self._open(writes=True) as connection:
            connection.execute("DELETE FROM device WHERE id = ?", (found.id,))
        return found

    def token(self, device: Device) -> str:
        """What each form of this phone carries, so that no other page can post in its name."""
        with self._open() as connection:
            (secret,) = connection.execute("SELECT value FROM secret").fetchone()
        return hmac.new(bytes.fromhex(secret), device.digest.encode(), "sha256").hexdigest()[:32]


def _digest(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()


def _text(rights: Rights) -> str:
    return msgspec.json.encode(rights).decode()


def _rights(text: str) -> Rights:
    return msgspec.json.decode(text, type=Rights)


def _free_name(name: str, taken: set[str]) -> str:
    """The name itself, else with the next number: who did a step must be told apart."""
    number, free = 1, name
    while free.casefold() in {t.casefold() for t in taken}:
        number += 1
        free = f"{name} {number}"
    return free
