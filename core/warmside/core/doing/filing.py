"""The collection file as a whole: checked, copied, put back, written out, read in."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from msgspec import Struct

from warmside.core.answers.parts import Answer, Column, Fact, Kind, Table, Words, said
from warmside.core.asking.checks import plugin_checks
from warmside.core.file import attention
from warmside.core.file.archives import reading as archive_reading
from warmside.core.file.archives import writing as archive
from warmside.core.file.archives.reading import MakeTables
from warmside.core.file.checks.whole import Checked, check_file, not_checked
from warmside.core.file.copies import backup
from warmside.core.file.copies.keeping import parse_keeping
from warmside.core.file.copies.pictures import copy_along, missing_in
from warmside.core.file.copies.second import stale
from warmside.core.file.places import check_place
from warmside.core.file.state import FileState, identity_in, read_state
from warmside.core.file.strangers import Thing
from warmside.core.kinds.known import Kinds
from warmside.core.record import tables
from warmside.core.session.session import Session
from warmside.core.values.counts import counted
from warmside.core.values.errors import BadInput, FileProblem, Refused

OPENING = "its tables and triggers are those of migrations"


def check(
    session: Session,
    unexplained: Callable[[Path, FileState], list[Thing]],
    second: Callable[[str], Path | None],
) -> Answer:
    """What was checked, and what needs attention; only old copies leave the file sound.

    `unexplained` gives the things in a file that no revision makes, `second` the folder for
    second copies of the collection of that identity.
    """
    _need_file(session)
    state = read_state(session.path)
    strange = ", ".join(t.told for t in unexplained(session.path, state))
    found = [Checked(OPENING, f"no migration made: {strange}" if strange else "")]
    kinds = Kinds()
    try:
        kinds = session.open().host.kinds
    except FileProblem:
        if not strange:
            raise
        found += check_file(session.path, kinds, session.now)
    else:
        *all_of_it, age = check_file(session.path, kinds, session.now)
        found += [*all_of_it, *_of_plugins(session), age]
    found += _second_copies(session, second(identity_in(session.path)))
    wrong = [f"{c.what}: {c.problem}" for c in found if c.problem and not c.only_a_note]
    # a plugin that fails says so itself; it is no reason to keep old copies
    of_file = [text for text in wrong if not text.startswith("plugin ")]
    attention.keep(session.path, of_file, session.now.date())
    return _told(
        found, not_checked(session.path, kinds), code=FileProblem.exit_code if wrong else 0
    )


def _of_plugins(session: Session) -> list[Checked]:
    """What plugins say of their own data; that nobody can, where pages cannot be read."""
    try:
        with session.ask() as ask:
            return list(plugin_checks(ask))
    except FileProblem as problem:
        said = str(problem).split(";")[0]
        return [Checked("plugins' own data", f"cannot be looked at: {said}")]


def _told(found: list[Checked], left: list[str], *, code: int) -> Answer:
    """What is wrong, row by row, or one sentence; all that was looked at is in the JSON."""
    columns = (Column("what", "checked"), Column("problem", "problem"))
    bad = tuple((c.what, c.problem) for c in found if c.problem)
    need = "needs" if len(bad) == 1 else "need"
    verdict = (
        f"{len(bad)} of {len(found)} checks {need} attention"
        if bad
        else f"all is well: {len(found)} checks, and nothing was found"
    )
    parts = (
        Words(verdict),
        Fact("ok", "the file is sound", not code, Kind.YESNO),
        Fact("not_checked", "not checked", tuple(left), Kind.LIST),
        Table("checks", columns, bad, empty=""),
    )
    checks = [{"what": c.what, "problem": c.problem or "none"} for c in found]
    return Answer("", parts, extra={"checks": checks}, exit_code=code)


def _second_copies(session: Session, folder: Path | None) -> list[Checked]:
    """The age of the newest second copy; nothing where none are made."""
    if folder is None:
        return []
    return [Checked("second copies", stale(session.path, folder, session.now.date()))]


def back_up(session: Session, target: Path | None) -> Answer:
    """A verified copy, beside the file unless a target is named."""
    _need_file(session)
    _need_free(target)
    read_state(session.path)
    if target is None:
        made = backup.asked_for(session.path, session.now)
    else:
        made = backup.make(session.path, target)
    copy_along(session.path, made)
    return said(f"made a verified copy: {made}")


def export(session: Session, target: Path) -> Answer:
    """Everything in one archive that can be read without warmside."""
    _need_file(session)
    _need_free(target)
    found = _found_wrong(session)
    rows = archive.export(session.path, target, session.now, found=found)
    warnings = [f"the file needs attention, as the archive says: {text}" for text in found]
    text = f"wrote {counted(rows, 'row')} to {target}; a README inside says how to read it"
    return Answer(parts=said(text).parts, warnings=tuple(warnings))


class Changing(Struct, frozen=True):
    """How long copies are kept, and where second copies go ("" for nowhere)."""

    keep: str | None = None
    second: str | None = None


def change_copies(
    session: Session, wanted: Changing, keep_second: Callable[[str, Path | None], None]
) -> Answer:
    """Change how copies are kept; `keep_second` keeps the folder of this machine."""
    words = []
    if wanted.second is not None:
        folder = Path(wanted.second).expanduser().absolute() if wanted.second else None
        if folder is not None and not folder.is_dir():
            raise BadInput(f"there is no folder {folder}; make it first")
        session.open()
        keep_second(identity_in(session.path), folder)
        words.append(f"second copies go to {folder}" if folder else "no second copies are made")
    if wanted.keep is not None:
        rule = parse_keeping(wanted.keep)
        with session.step(f"copies are kept: {rule.text}") as writer:
            writer.change(tables.collection, {"id": 1}, keeping=rule.text)
        words.append(f"copies are kept: {rule.text}")
    return said("; ".join(words))


def read_archive(session: Session, source: Path, make_tables: MakeTables) -> Answer:
    """A new collection file from an archive; what is wrong in it is said at once."""
    rows = archive_reading.restore(source, session.path, make_tables)
    found = _found_wrong(session)
    attention.keep(session.path, found, session.now.date())
    missing = len(missing_in(session.path))
    are = counted(missing, "picture is", "pictures are")
    absent = [f"{are} not in the archive, as its rows name them"] if missing else []
    wrong = [attention.told(session.path, found)] if found else []
    told = said(f"made {session.path} with {counted(rows, 'row')} from {source}")
    return Answer(parts=told.parts, warnings=(*absent, *wrong))


def _found_wrong(session: Session) -> list[str]:
    """What a check of the file finds, plugins and the age of copies apart."""
    checked = check_file(session.path, Kinds(), session.now)[:-1]
    return [f"{c.what}: {c.problem}" for c in checked if c.problem]


def _need_file(session: Session) -> None:
    if not session.path.exists():
        raise backup.no_file(session.path)


def _need_free(target: Path | None) -> None:
    if target is not None and check_place(target).exists():
        raise Refused(f"{target} is there already; name another file")
