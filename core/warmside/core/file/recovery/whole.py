"""A new file of the rows that can still be read from a damaged one, and of what copies hold more.

The tables are built by our own revisions; rows come from the file's pages, and what is missing from
the newest copies. A row of the file goes before that of a copy unless its checksum says otherwise.
"""

from __future__ import annotations

import sqlite3
from collections import ChainMap, Counter
from collections.abc import Callable, Mapping, Sequence
from contextlib import closing, suppress
from pathlib import Path

from msgspec import Struct

from warmside.core.file.copies import backup, restoring
from warmside.core.file.half_made import begin, part_beside
from warmside.core.file.places import check_place
from warmside.core.file.recovery import series_rows, struck
from warmside.core.file.recovery.lost_steps import Shown, shown_in
from warmside.core.file.recovery.pages import Pages
from warmside.core.file.recovery.put_right import name_lost_species, put_right
from warmside.core.file.recovery.rows import add_of_copy, add_of_file
from warmside.core.file.state import read_state, reader
from warmside.core.file.strangers import plain_tables, schema_of
from warmside.core.record import sums
from warmside.core.record.owners import VERSIONS
from warmside.core.values.errors import BadInput, FileProblem, Refused, WarmsideError

MakeTables = Callable[[Path, Mapping[str, str]], frozenset[str]]
MOST_BYTES = 4 << 30
KEY = "SELECT name FROM pragma_table_info(?) WHERE pk = 1"
NEXT_EVENT = (
    "UPDATE sqlite_sequence SET seq = (SELECT coalesce(max(id), 0) FROM event) WHERE name = 'event'"
)


class Recovered(Struct):
    """How many rows came out of the file and how many of copies, and what neither had."""

    from_file: Counter[str]
    from_copies: Counter[str]
    by_steps: Counter[str]  # rows that were made or taken away as the record of steps says
    left_out: Counter[str]  # rows that refer to what is gone
    copies: list[Path]
    not_whole: list[LostStep]  # steps of which something is in no source
    lost_species: int = 0  # of which animals are left, and not the name


class LostStep(Struct, frozen=True):
    """A step that is not whole any more, as its own words tell of it; `lost` is what is known."""

    id: int
    at: str
    words: str
    lost: str = ""


class Source(Struct, frozen=True):
    """A readable file beside the damaged one: revisions, roots and columns are taken from it."""

    path: Path
    revisions: dict[str, str]


def recover(path: Path, target: Path, copies: Sequence[Path], make_tables: MakeTables) -> Recovered:
    """Make `target` of what can be read in `path` and in its copies, newest first.

    Raises Refused where `target` is there, FileProblem where neither the file nor a copy says how
    its tables are made.
    """
    if check_place(target).exists():
        raise Refused(f"{target} is there already; name another file")
    guides = [g for p in (path, *copies) if (g := _guide(p)) is not None]
    if not guides:
        raise FileProblem(f"neither {path} nor a copy of it says how its tables are made")
    part = part_beside(target)
    begin(part)
    try:
        of_copies = [g.revisions for g in guides]
        _make_tables(part, [dict(ChainMap(*of_copies)), *of_copies[1:]], make_tables)
        with closing(sqlite3.connect(part)) as new:
            new.isolation_level = None
            found = _filled(new, path, guides)
        read_state(part)
        backup.sync(part)
        part.replace(target)
    finally:
        with suppress(OSError):
            part.unlink(missing_ok=True)
    return found


def _make_tables(
    part: Path, revisions: Sequence[Mapping[str, str]], make_tables: MakeTables
) -> None:
    """As the file says that they were made; where it says what is none, as the newest copy does."""
    for told in revisions[:-1]:
        with suppress(FileProblem):
            make_tables(part, told)
            return
        part.unlink()
        begin(part)
    make_tables(part, revisions[-1])


def _guide(path: Path) -> Source | None:
    try:
        told = read_state(path).revisions
        return Source(path, {o: r for o, r in told.items() if isinstance(r, str)})
    except WarmsideError:
        return None


def _filled(new: sqlite3.Connection, path: Path, guides: Sequence[Source]) -> Recovered:
    copies = [g for g in guides if g.path != path]
    found = Recovered(
        Counter(), Counter(), Counter(), Counter(), [g.path for g in copies], list[LostStep]()
    )
    new.execute("BEGIN")
    guards = [t for t in schema_of(new) if t.type == "trigger"]
    for guard in guards:
        new.execute(f'DROP TRIGGER "{guard.name}"')
    mended, shown = _rows_of_all(new, path, guides, found)
    struck.steps_of_copies(new, found.copies)
    found.by_steps = put_right(new, mended, shown)
    found.from_copies += struck.rows_of_copies(new, found.copies, mended)
    found.from_copies += series_rows.fill_steps(new, found.copies)
    found.lost_species = name_lost_species(new)
    _leave_out_broken(new, found)
    struck.leave_out_unreadable(new)
    found.left_out += series_rows.leave_out_of_no_step(new)
    new.execute(NEXT_EVENT)
    for guard in guards:
        new.execute(guard.sql or "")
    if sums.has_sums(new):
        found.not_whole = _not_whole(new)
        new.execute("DELETE FROM seal")
        sums.renew(new, sums.Wrong())
    new.execute("COMMIT")
    return found


def _rows_of_all(
    new: sqlite3.Connection, path: Path, guides: Sequence[Source], found: Recovered
) -> tuple[set[str], Shown]:
    """Fill every table; returns those that the file did not give whole, where copies helped.

    Also what the file itself shows of steps. Rows go from a table to its shelf and back: where one
    is not whole, copies fill both.
    """
    pages, roots = Pages(_bytes_of(path)), _roots(guides)
    tables = [t for t in plain_tables(schema_of(new)) if not t.startswith(("sqlite_", VERSIONS))]
    for table in tables:
        new.execute(f'DELETE FROM "{table}"')
    lost = set(tables) - roots.keys()
    for table in (t for t in tables if t in roots):
        found.from_file[table], whole = add_of_file(new, pages, roots[table], table)
        lost |= set() if whole else {table}
    shown = shown_in(new)
    lost |= _not_as_left(new) | series_rows.damaged(new)
    mended = {t for t in tables if lost & {t, f"{t}_shelf", t.removesuffix("_shelf")}}
    for table in sorted(mended):
        for copy in found.copies:
            found.from_copies[table] += add_of_copy(new, copy, table)
    return mended, shown


def _not_as_left(new: sqlite3.Connection) -> set[str]:
    """The tables whose checksums tell that rows were lost or struck, though all could be read."""
    if not sums.has_sums(new):
        return set()
    of_steps = {"event", "event_shelf", "change", "step"} if sums.step_problems(new) else set()
    return of_steps | set(sums.table_problems(new))


def _not_whole(new: sqlite3.Connection) -> list[LostStep]:
    """The steps that do not have the checksum that they had: something of them is gone."""
    lost = dict.fromkeys(sums.step_problems(new), "")
    for id, words in series_rows.say_what_is_there(new):
        lost[id] = "; ".join(filter(None, (lost.get(id), words)))
    query = "SELECT id, at, words FROM step WHERE id = ?"
    steps = [(*new.execute(query, (id,)).fetchone(), lost[id]) for id in sorted(lost)]
    return [LostStep(*step) for step in steps]


def _bytes_of(path: Path) -> bytes:
    if not path.is_file():
        return b""
    if path.stat().st_size > MOST_BYTES:
        raise BadInput(f"{path} is too large to be read page by page")
    return restoring.bytes_of(path)


def _roots(guides: Sequence[Source]) -> dict[str, int]:
    """The root page of each table in the damaged file, from itself or a copy of the same pages."""
    roots: dict[str, int] = {}
    query = "SELECT name, rootpage FROM sqlite_schema WHERE type = 'table'"
    for guide in guides:
        with suppress(sqlite3.DatabaseError), closing(reader(guide.path)) as connection:
            for name, root in connection.execute(query):
                roots.setdefault(name, root)
    return roots


def _leave_out_broken(new: sqlite3.Connection, found: Recovered) -> None:
    """Leave out what refers to what is gone."""
    while broken := new.execute("PRAGMA foreign_key_check").fetchall():
        for table, parent, number in {(row[0], row[2], row[3]) for row in broken}:
            query = 'SELECT "from", "to" FROM pragma_foreign_key_list(?) WHERE id = ?'
            own, to = new.execute(query, (table, number)).fetchone()
            to = to or new.execute(KEY, (parent,)).fetchone()[0]
            gone = f'"{own}" NOT IN (SELECT "{to}" FROM "{parent}")'
            found.left_out[table] += new.execute(f'DELETE FROM "{table}" WHERE {gone}').rowcount
