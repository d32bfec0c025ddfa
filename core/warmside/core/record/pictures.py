"""Pictures and papers on record: what each shows, and the file that it is kept in."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from typing import Any

from msgspec import Struct

from warmside.core.pictures.kept import NAME, file_name, small_name

COLUMNS = (
    "id, digest, kind, given, size_bytes, width, height, day, view, note, animal_id, "
    "enclosure_id, event_id, thing, thing_id"
)


class Picture(Struct, frozen=True):
    """A picture (or a paper, of kind pdf) and what it shows; sizes are pixels, None for a paper.

    `given` is the digest of the file that was taken in; `digest` that of the one kept. `thing` and
    `thing_id` name a row of a plugin's table, such as `health.paper`.
    """

    id: int
    digest: str
    kind: str
    given: str
    size_bytes: int
    width: int | None
    height: int | None
    day: date
    view: str
    note: str
    animal_id: int | None
    enclosure_id: int | None
    event_id: int | None
    thing: str
    thing_id: int | None

    @property
    def is_paper(self) -> bool:
        """Whether it is a PDF, of which there is no preview."""
        return self.kind == "pdf"


def picture_from(row: Iterable[Any]) -> Picture:
    """The picture of a row of COLUMNS."""
    id, digest, kind, given, size, width, height, day, *rest = row
    on = date.fromisoformat(day)
    return Picture(id, digest, kind, given, size, width, height, on, *rest)


class KeptFile(Struct, frozen=True, order=True):
    """A file that the record names, by its digest and kind; only sound names are ever made."""

    digest: str
    kind: str

    @property
    def name(self) -> str:
        """The name of the file, in whichever folder it lies."""
        return file_name(self.digest, self.kind)

    @property
    def small(self) -> str:
        """The name of the file of its preview; empty for a paper, which has none."""
        return "" if self.kind == "pdf" else small_name(self.digest)


def files_shown(connection: sqlite3.Connection) -> set[KeptFile]:
    """The files of pictures in force; none where the collection is older than pictures."""
    rows = _rows(connection, "SELECT DISTINCT digest, kind FROM picture")
    return set(_sound(rows))


def files_named(connection: sqlite3.Connection) -> set[KeptFile]:
    """As `files_shown`, with those that an undo or redo may bring back."""
    rows = _rows(connection, "SELECT before, after FROM change WHERE tbl = 'picture'")
    images = (_image(text) for row in rows for text in row if text is not None)
    return files_shown(connection) | set(_sound((i.get("digest"), i.get("kind")) for i in images))


def _image(text: str) -> dict[str, Any]:
    try:
        image = json.loads(text)
    except ValueError:  # rot, which a check tells of
        return {}
    return image if isinstance(image, dict) else {}


def _sound(rows: Iterable[Sequence[Any]]) -> Iterator[KeptFile]:
    """A file of a stranger may name any place; what is no digest names none."""
    for digest, kind in rows:
        if NAME.fullmatch(f"{digest}.{kind}"):
            yield KeptFile(digest, kind)


def _rows(connection: sqlite3.Connection, query: str) -> list[tuple[Any, ...]]:
    try:
        return connection.execute(query).fetchall()
    except sqlite3.OperationalError as error:
        if "no such table" in str(error):
            return []
        raise
