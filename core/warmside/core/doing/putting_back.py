"""Putting a copy in the place of a collection that is lost, damaged or mistaken."""

from __future__ import annotations

import zipfile
from pathlib import Path

from msgspec import Struct

from warmside.core.answers.parts import Answer, Column, Kind, Table, said
from warmside.core.file import attention
from warmside.core.file.copies import backup, restoring
from warmside.core.file.copies.found import Copy, is_ahead, look_into, newest_first, of_collection
from warmside.core.file.copies.pictures import bring_back, lost_words
from warmside.core.file.state import identity_in, read_state
from warmside.core.session.session import Session
from warmside.core.values.counts import counted
from warmside.core.values.errors import BadInput, FileProblem, NotFound, Refused
from warmside.core.values.questions import Question
from warmside.core.values.units import Unit


class Restoring(Struct, frozen=True):
    """The copy to put in the place of the file; by default the newest that is sound."""

    source: Path | None = None
    sure: bool = False


def restore(session: Session, wanted: Restoring) -> Answer:
    """Put a copy back; the file as it is now is kept beside it."""
    skipped: list[str] = []
    chosen = _named(session, wanted.source) if wanted.source else _newest(session, skipped)
    question = f"Put {chosen.path.name} ({told(chosen)}) in the place of {session.path}?"
    Question("sure", question, "--yes", yes_or_no=True).answered(wanted.sure)
    kept = restoring.put_back(chosen.path, session.path, session.now)
    carried = bring_back(session.path, [chosen.path])
    found = [f"restored from {chosen.path.name}: {chosen.problem}"] if chosen.problem else []
    attention.keep(session.path, found, session.now.date())
    more = f"; the file as it was is kept in {kept}" if kept else ""
    warnings = [*skipped, *found, *_ahead(session, chosen), *lost_words(carried)]
    if brought := len(carried.brought):
        more += f"; {counted(brought, 'picture was', 'pictures were')} brought back"
    text = f"restored {session.path} from {chosen.path} ({told(chosen)}){more}"
    parts = said(text, hints=["warmside file check"]).parts
    return Answer(parts=parts, warnings=tuple(warnings))


def told(copy: Copy) -> str:
    """What a copy holds, in a keeper's words."""
    last = f"last step {copy.at:%Y-%m-%d %H:%M} UTC" if copy.at else "no step yet"
    animals = f"{copy.animals} animal{'' if copy.animals == 1 else 's'}"
    return f"{last}, {animals}, {copy.events} event{'' if copy.events == 1 else 's'}"


def _ahead(session: Session, copy: Copy) -> list[str]:
    if not is_ahead(copy, session.now):
        return []
    return [f"the last step in {copy.path.name} is of {copy.at:%Y-%m-%d}, which is still to come"]


def _newest(session: Session, skipped: list[str]) -> Copy:
    """The newest sound copy of this collection; what is passed over is added to `skipped`."""
    copies = of_collection(session.path, session.now)
    own = identity_in(session.path) if session.path.exists() else ""
    if not own and len({c.identity for c in copies if c.identity}) > 1:
        raise Refused(
            f"copies of more than one collection lie in {backup.folder_of(session.path)}; name the "
            "one: warmside file restore COPY; list them: warmside file restore --list"
        )
    for copy in copies:
        if copy.identity and own and copy.identity != own:
            skipped.append(f"{copy.path.name} was passed over: a copy of another collection")
        elif copy.problem:
            skipped.append(f"{copy.path.name} was passed over: {copy.problem}")
        else:
            return copy
    return _none(session, copies)


def _none(session: Session, copies: list[Copy]) -> Copy:
    if not copies:
        raise NotFound(f"there is no backup of {session.path} in {backup.folder_of(session.path)}")
    raise FileProblem(
        f"none of the {counted(len(copies), 'copy', 'copies')} of {session.path} is sound; list "
        "them: warmside file restore --list; put one back by its name, or save what can be read: "
        "warmside file recover"
    )


def _named(session: Session, source: Path) -> Copy:
    """The copy that was named; raises where it is none, or of another collection."""
    if not source.exists():
        raise NotFound(f"there is no backup {source}; list them: warmside file restore --list")
    _check_backup(session, source)
    copy = look_into(source)
    own = identity_in(session.path) if session.path.exists() else ""
    if own and copy.identity and copy.identity != own:
        raise Refused(
            f"{source} is a copy of another collection; it is not put in the place of this one; "
            f"open it as it is: warmside --collection {source} today"
        )
    return copy


def _check_backup(session: Session, chosen: Path) -> None:
    """Raise for what is no backup; SQLite looks first, since only it may open a collection."""
    try:
        read_state(chosen)
    except FileProblem:
        own = session.path.exists() and chosen.samefile(session.path)
        if not own and zipfile.is_zipfile(chosen):
            raise BadInput(
                f"{chosen} is an archive; read it into a new file: "
                f"warmside --collection NEW-FILE file import {chosen}"
            ) from None
        raise


def backups(session: Session) -> Answer:
    """The copies of the file, the one that goes furthest first."""
    columns = (
        Column("backup", "backup"),
        Column("last_step", "last step", Kind.MOMENT),
        Column("animals", "animals", Unit.COUNT),
        Column("events", "events", Unit.COUNT),
        Column("bytes", "bytes", Unit.COUNT),
        Column("state", "state"),
    )
    copies = newest_first(map(look_into, backup.all_of(session.path)), session.now)
    own = identity_in(session.path) if session.path.exists() else ""
    rows = tuple(
        (str(c.path), c.at, c.animals, c.events, c.path.stat().st_size, _state(c, session, own))
        for c in copies
    )
    return Answer("Backups", (Table("backups", columns, rows, empty="there is no backup yet"),))


def _state(copy: Copy, session: Session, own: str) -> str:
    if own and copy.identity and copy.identity != own:
        return "of another collection"
    ahead = "of a clock that ran ahead" if is_ahead(copy, session.now) else ""
    return copy.problem or ahead or "sound"
