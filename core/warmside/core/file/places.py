"""Whether a name can be that of a file here: the limits of systems and of SQLite, in words."""

from __future__ import annotations

import os
from pathlib import Path

from warmside.core.values.errors import BadInput

MOST_IN_NAME = 225  # bytes; 255 is the limit of most systems, and copies have longer names
MOST_IN_PATH = 420  # bytes; SQLite takes 512 (MAX_PATHNAME of its unix layer), for copies too


def check_place(path: Path) -> Path:
    """The path itself; raises BadInput where no file can be made or opened there."""
    name = os.fsencode(path.name)
    try:
        name.decode("utf-8")
    except UnicodeDecodeError:
        raise BadInput(f"the name {path.name!a} is not UTF-8; name another file") from None
    parts = [os.fsencode(part) for part in path.parts]
    if len(name) > MOST_IN_NAME or any(len(part) > 255 for part in parts):
        raise BadInput(f"the name {path.name[:30]}… is too long; name a shorter one")
    if len(os.fsencode(path.absolute())) > MOST_IN_PATH:
        raise BadInput(f"the path of {path.name} is too long; name a place less deep")
    return path
