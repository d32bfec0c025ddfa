"""The journal that a killed program leaves beside a file, which SQLite plays back at the opening.

One that names a super-journal (sqlite.org/atomiccommit.html, 5.0) makes SQLite open that file, too,
and remove it where no journal that it names is left: whoever hands on a file with such a journal
removes any file of whoever opens it. A step here writes one file, so that no journal of ours names
another. No heavy imports.
"""

from __future__ import annotations

import os
import stat
from pathlib import Path

MAGIC = bytes.fromhex("d9d505f920a163d7")
"""The first bytes of a journal, and the last of one that names another file."""


def strange_journal(path: Path) -> str:
    """Why the journal beside a file is none that may be played back; empty where it may be."""
    journal = path.with_name(f"{path.name}-journal")
    try:
        about = journal.lstat()
    except OSError:
        return ""
    if not stat.S_ISREG(about.st_mode):
        return f"{journal} is no plain file"
    return f"{journal} names another file" if _tail(journal) == MAGIC else ""


def _tail(journal: Path) -> bytes:
    try:
        with journal.open("rb") as file:
            file.seek(0, os.SEEK_END)
            file.seek(max(0, file.tell() - len(MAGIC)))
            return file.read()
    except OSError:  # another program has just done with it
        return b""
