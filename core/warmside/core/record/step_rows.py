"""The row of a step: what was done, when and by whom, under a reference that is written once."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import Connection, insert, select

from warmside.core.record import tables
from warmside.core.record.entities import Sender
from warmside.core.values.errors import SentBefore
from warmside.core.values.moments import instant_text


def begin_step(connection: Connection, now: datetime, sender: Sender, **values: Any) -> int:
    """Write the row of a step; its number. SentBefore where its reference was written already."""
    check_new(connection, sender)
    by = writable(sender.by) if sender.by else None
    row = {"at": instant_text(now), "by": by, "ref": sender.ref, **values}
    query = insert(tables.step).values(**row).returning(tables.step.c.id)
    return connection.execute(query).scalar_one()


def check_new(connection: Connection, sender: Sender) -> None:
    """Raise SentBefore where a step with the sender's reference is written."""
    s = tables.step.c
    if sender.ref is not None:
        found = connection.execute(select(s.id).where(s.ref == sender.ref)).first()
        if found is not None:
            raise SentBefore(found.id)


def writable(words: str) -> str:
    """The words without halves of characters, which no file can hold."""
    return words.encode("utf-8", "replace").decode("utf-8")
