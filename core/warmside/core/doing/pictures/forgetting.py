"""Removing a picture for good: its row, what undo knew of it, and its file wherever it lies."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable
from pathlib import Path

from msgspec import Struct

from warmside.core.answers.parts import Answer, said
from warmside.core.asking.pictures.told import whose
from warmside.core.doing.pictures.keeping import picture_numbered, seconds_of_session
from warmside.core.file import sqlite
from warmside.core.file.copies.pictures import named_in
from warmside.core.file.pictures.places import pictures_of, places
from warmside.core.file.turns import turn
from warmside.core.record import sums
from warmside.core.record.pictures import KeptFile
from warmside.core.record.stamps import stamp
from warmside.core.record.steps import driver_of
from warmside.core.session.session import Session
from warmside.core.values.errors import FileProblem
from warmside.core.values.questions import Question


class ForgettingPicture(Struct, frozen=True):
    """The picture, and its number typed again."""

    number: int
    typed: str | None = None


def forget_picture(
    session: Session, wanted: ForgettingPicture, second: Callable[[str], Path | None]
) -> Answer:
    """Remove the picture; the file stays only where another row shows it. No undo.

    `second` gives the folder of second copies, where it is removed too.
    """
    number = wanted.number
    with session.read() as book:
        picture = picture_numbered(book, number)
        told = whose(book, picture)
    warning = f"this removes picture {number} of {told} for good, from the copies, too"
    Question("typed", warning, "--number", exact=str(number)).answered(wanted.typed)
    kept = KeptFile(picture.digest, picture.kind)
    with turn(session.path):
        _remove_row(session.path, number)
        shared = kept in named_in(session.path)
        if not shared:
            _remove_files(kept, _folders(session, second))
    more = "; its file stays, another picture on record is the same" if shared else ""
    return said(f"removed picture {number} of {told} for good{more}")


def _remove_row(path: Path, number: int) -> None:
    with sqlite.writing(sqlite.open_engine(path)) as connection:
        driver = driver_of(connection)
        before = sums.wrong(driver)
        connection.exec_driver_sql("DELETE FROM picture WHERE id = ?", (number,))
        # undo could bring it back
        key = json.dumps({"id": number})
        connection.exec_driver_sql("DELETE FROM change WHERE tbl = 'picture' AND key = ?", (key,))
        stamp(connection, ["picture"])
        sums.renew(driver, before)


def _folders(session: Session, second: Callable[[str], Path | None]) -> list[Path]:
    others = (pictures_of(copy) for copy in seconds_of_session(session, second))
    return list(dict.fromkeys([*places(session.path), *others]))


def _remove_files(kept: KeptFile, folders: Iterable[Path]) -> None:
    try:
        for folder in folders:
            for name in filter(None, (kept.name, kept.small)):
                (folder / name).unlink(missing_ok=True)
    except OSError as error:
        raise FileProblem(
            f"the picture is off the record, but its file cannot be removed from {folder}: "
            f"{error.strerror}; remove {kept.name} there"
        ) from error
