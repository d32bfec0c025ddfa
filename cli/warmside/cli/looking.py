"""Looking at the whole file without being asked: once a week after the round, and after a fault.

The round is shown before; a file that this machine has not seen yet is looked at, too. The day is
a memory in the user's cache folder: losing it only means that the file is looked at again.
"""

from __future__ import annotations

import sys
from contextlib import suppress
from datetime import date, datetime
from pathlib import Path

from warmside.cli.cache import cache_file
from warmside.core.file import attention
from warmside.core.file.state import identity_in
from warmside.core.kinds.known import Kinds
from warmside.core.session.session import Session

EVERY_DAYS = 7


def look_if_due(session: Session) -> None:
    """Look at the file where that was not done for a week; only what is wrong is said."""
    opened, today = session.opened, session.now.date()
    if opened is None or not _is_due(session.path, today):
        return
    sys.stdout.flush()  # the round first
    with suppress(Exception):  # the round was shown; the next command will tell what is amiss
        found = problems(session.path, opened.host.kinds, session.now)
        attention.keep(session.path, found, today)
        _say([attention.told(session.path, found)] if found else [])
        _say(_second_copies(session.path, today))
        _memory(session.path).write_text(today.isoformat(), encoding="ascii")


def _second_copies(path: Path, today: date) -> list[str]:
    """That second copies are old or missing, where the keeper wants some."""
    from warmside.cli.second_copies import second_folder
    from warmside.core.file.copies.second import stale

    folder = second_folder(identity_in(path))
    told = stale(path, folder, today) if folder is not None else ""
    return [f"second copies: {told}"] if told else []


def _say(lines: list[str]) -> None:
    from warmside.faces.terminal.visible import visible

    for line in lines:
        print(f"note: {visible(line)}", file=sys.stderr)


def problems(path: Path, kinds: Kinds, now: datetime) -> list[str]:
    """What a check of the whole file finds wrong in it; plugins' own rules are not asked."""
    from warmside.core.file.checks.whole import check_file

    checked = check_file(path, kinds, now)
    return [f"{c.what}: {c.problem}" for c in checked if c.problem and not c.only_a_note]


def _memory(path: Path) -> Path:
    return cache_file(path, "looked")


def _is_due(path: Path, today: date) -> bool:
    try:
        last = date.fromisoformat(_memory(path).read_text(encoding="ascii"))
    except (OSError, ValueError):
        return True
    return not 0 <= (today - last).days < EVERY_DAYS
