"""The collection file as a whole: checked, copied, put back, written out, read in."""

from __future__ import annotations

import zipfile
from collections.abc import Callable
from pathlib import Path

from msgspec import Struct

from warmside.core.answers.parts import Answer, Column, Fact, Kind, Table, Words, said
from warmside.core.asking.checks import plugin_checks
from warmside.core.file import archive, archive_reading, backup, restoring
from warmside.core.file.archive_reading import MakeTables
from warmside.core.file.checking import Checked, check_file
from warmside.core.file.state import FileState, read_state
from warmside.core.file.strangers import Thing
from warmside.core.kinds.known import Kinds
from warmside.core.session.session import Session
from warmside.core.values.errors import BadInput, FileProblem, NotFound, Refused
from warmside.core.values.questions import Question
from warmside.core.values.units import Unit

OPENING = "its tables and triggers are those of migrations"


def check(session: Session, unexplained: Callable[[Path, FileState], list[Thing]]) -> Answer:
    """What was checked, and what needs attention; only old backups leave the file sound.

    `unexplained` gives the things in a file that no revision makes.
    """
    state = read_state(session.path)
    strange = ", ".join(t.told for t in unexplained(session.path, state))
    found = [Checked(OPENING, f"no migration made: {strange}" if strange else "")]
    try:
        kinds = session.open().host.kinds
    except FileProblem:
        if not strange:
            raise
        found += check_file(session.path, Kinds(), session.now)
    else:
        *all_of_it, age = check_file(session.path, kinds, session.now)
        with session.ask() as ask:
            found += [*all_of_it, *plugin_checks(ask), age]
    columns = (Column("what", "checked"), Column("problem", "problem"))
    rows = tuple((c.what, c.problem or "none") for c in found)
    bad = [c for c in found if c.problem]
    verdict = f"{len(bad)} of {len(found)} need attention" if bad else "all is well"
    code = FileProblem.exit_code if any("backups" not in c.what for c in bad) else 0
    facts = Fact("ok", "the file is sound", not code, Kind.YESNO)
    return Answer("", (Words(verdict), facts, Table("checks", columns, rows)), exit_code=code)


def back_up(session: Session, target: Path | None) -> Answer:
    """A verified copy, beside the file unless a target is named."""
    _need_file(session)
    _need_free(target)
    read_state(session.path)
    if target is None:
        made = backup.asked_for(session.path, session.now)
    else:
        made = backup.make(session.path, target)
    return said(f"made a verified copy: {made}")


class Restoring(Struct, frozen=True):
    """The backup to put in the place of the file, the newest by default."""

    source: Path | None = None
    sure: bool = False


def restore(session: Session, wanted: Restoring) -> Answer:
    """Put the backup back; the file as it is now is kept beside it."""
    chosen = wanted.source or backup.newest(session.path)
    if not chosen.exists():
        raise NotFound(f"there is no backup {chosen}; list them: warmside file restore --list")
    _check_backup(session, chosen)
    question = f"Put {chosen.name} in the place of {session.path}?"
    Question("sure", question, "--yes", yes_or_no=True).answered(wanted.sure)
    kept = restoring.put_back(chosen, session.path, session.now)
    more = f"; the file as it was is kept in {kept}" if kept else ""
    return said(f"restored {session.path} from {chosen}{more}")


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
    """The backups of the file, newest first."""
    columns = (Column("backup", "backup"), Column("bytes", "bytes", Unit.COUNT))
    rows = tuple((str(p), p.stat().st_size) for p in backup.all_of(session.path))
    return Answer("Backups", (Table("backups", columns, rows, empty="there is no backup yet"),))


def export(session: Session, target: Path) -> Answer:
    """Everything in one archive that can be read without warmside."""
    _need_file(session)
    _need_free(target)
    rows = archive.export(session.path, target, session.now)
    return said(f"wrote {rows} rows to {target}; a README inside says how to read it")


def read_archive(session: Session, source: Path, make_tables: MakeTables) -> Answer:
    """A new collection file from an archive."""
    rows = archive_reading.restore(source, session.path, make_tables)
    return said(f"made {session.path} with {rows} rows from {source}")


def _need_file(session: Session) -> None:
    if not session.path.exists():
        raise NotFound(f"there is no collection at {session.path} yet; make one with: warmside new")


def _need_free(target: Path | None) -> None:
    if target is not None and target.exists():
        raise Refused(f"{target} is there already; name another file")
