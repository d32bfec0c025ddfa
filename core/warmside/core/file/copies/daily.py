"""The day's first copy: the file is looked at before, and what is kept of older copies is sound."""

from __future__ import annotations

import contextlib
import re
import sqlite3
from collections.abc import Callable, Iterable
from contextlib import closing
from datetime import date
from pathlib import Path

from msgspec import Struct

from warmside.core.file import attention
from warmside.core.file.checks.sums import part_of
from warmside.core.file.checks.whole import daily_problems
from warmside.core.file.copies import backup
from warmside.core.file.copies.keeping import USUAL, Keeping, kept, parse_keeping
from warmside.core.file.copies.pictures import clear_halves, copy_along
from warmside.core.file.copies.second import seconds_of
from warmside.core.file.state import file_problem, identity_in, reader
from warmside.core.file.turns import turn
from warmside.core.values.errors import BadInput, FileProblem, WarmsideError

DOUBTFUL_KEPT = 3
LEFT_OVER_SECONDS = 86_400
DAY = re.compile(r"day-(\d{4}-\d{2}-\d{2})")
Second = Callable[[str], Path | None]  # of an identity: the folder for second copies


class Daily(Struct, frozen=True):
    """The copy that was made, if one was, and what is to be said of it."""

    copy: Path | None = None
    notes: tuple[str, ...] = ()


def daily(path: Path, today: date, second: Second | None = None) -> Daily:
    """Once a day a copy of a sound file; of another a doubtful one, and then none is removed."""
    target = backup.folder_of(path) / f"day-{today.isoformat()}{path.suffix}"
    doubtful = target.with_name(target.name.replace("day-", "doubtful-"))
    if target.exists() or doubtful.exists():
        return Daily()
    with turn(path):
        if target.exists() or doubtful.exists():  # another thread was first
            return Daily()
        found = attention.standing(path) or _problems(path, today)
        if found:
            attention.keep(path, found, today)
            return _doubtful(path, doubtful, found)
        return _sound(path, target, today, second)


def _problems(path: Path, today: date) -> list[str]:
    earlier = [d for p in backup.all_of(path) if (d := _day(p)) and d < today]
    part = part_of(today, max(earlier, default=None), _rule(path).days)
    try:
        with closing(reader(path)) as connection:
            return daily_problems(connection, path, part)
    except sqlite3.DatabaseError as error:
        raise file_problem(path, error) from error


def _doubtful(path: Path, target: Path, found: list[str]) -> Daily:
    backup.make(path, target)
    notes = _pictures(path, target)
    older = sorted(target.parent.glob(f"doubtful-*{path.suffix}"))[:-DOUBTFUL_KEPT]
    _remove(older)
    return Daily(target, (attention.told(path, found), *notes))


def _sound(path: Path, target: Path, today: date, second: Second | None) -> Daily:
    try:
        backup.make(path, target)
    except FileProblem as problem:
        if "damaged" in str(problem):
            attention.keep(path, [str(problem).split(";")[0]], today)
        raise
    rule, own = _rule(path), identity_in(path)
    _remove(superfluous(backup.all_of(path), today, rule, own))
    _remove(_left_over(path, target))
    clear_halves(path, backup.changed(target) - LEFT_OVER_SECONDS)
    notes = _pictures(path, target)
    folder = second(own) if second else None
    return Daily(target, (*notes, *_second_copy(path, target, today, rule, folder)))


def _pictures(path: Path, copy: Path) -> list[str]:
    """Carry pictures along to a copy; a line where that cannot be done."""
    try:
        copy_along(path, copy)
    except FileProblem as problem:
        return [str(problem)]
    return []


def _rule(path: Path) -> Keeping:
    try:
        with closing(reader(path)) as connection:
            return parse_keeping(connection.execute("SELECT keeping FROM collection").fetchone()[0])
    except (sqlite3.DatabaseError, BadInput):
        return USUAL


def superfluous(copies: Iterable[Path], today: date, rule: Keeping, own: str) -> list[Path]:
    """The daily copies that are too many; never today's, one of a day to come, or another's."""
    dated = {p: d for p in copies if (d := _day(p))}
    keep = kept((d for d in dated.values() if d <= today), rule) | {today}
    many = [p for p, d in dated.items() if d < today and d not in keep]
    return [p for p in many if identity_in(p) in ("", own)]


def _day(copy: Path) -> date | None:
    """The day of a daily copy; None for any other."""
    with contextlib.suppress(ValueError):  # of a file that somebody has named so
        if found := DAY.search(copy.name):
            return date.fromisoformat(found[1])
    return None


def _second_copy(
    path: Path, made: Path, today: date, rule: Keeping, folder: Path | None
) -> list[str]:
    """A second copy, whole and closed; a line for each thing that is to be said of it."""
    if folder is None:
        return []
    if not folder.is_dir():
        return [f"no second copy was made: there is no folder {folder} now"]
    name = f"{path.stem}-{identity_in(made)[:8]}"
    try:
        # another file of the same collection, such as one to try things in, may have been first
        second = backup.make(made, backup.free_name(folder / f"{name}-{made.name}"))
        copy_along(path, second)
    except WarmsideError as problem:
        return [f"the second copy is not whole: {problem}"]
    _remove(superfluous(seconds_of(path, folder), today, rule, identity_in(made)))
    return []


def _left_over(path: Path, newer: Path) -> list[Path]:
    """Halves of files that a killed program left, a day older than the newer backup."""
    limit = backup.changed(newer) - LEFT_OVER_SECONDS
    beside = (p for e in ("part", "coming") for p in path.parent.glob(f"{path.name}.*.{e}*"))
    within = backup.folder_of(path).glob("*.part*")
    return [p for p in (*beside, *within) if 0 < backup.changed(p) < limit]


def _remove(files: Iterable[Path]) -> None:
    for file in files:
        with contextlib.suppress(OSError):
            file.unlink()
