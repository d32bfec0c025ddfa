"""Files that are being made beside the place where they belong, until they are whole."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

OWN = 0o600  # readable by nobody else


def part_beside(target: Path, ending: str = "part") -> Path:
    """A name for the half-made file, which no other thread or program takes."""
    return target.with_name(f"{target.name}.{os.urandom(6).hex()}.{ending}")


def begin(part: Path, like: Path | None = None) -> None:
    """Make the empty file for its owner alone, or with the rights of another file."""
    mode = OWN
    if like is not None:
        with suppress(OSError):
            mode = like.stat().st_mode & 0o666
    os.close(os.open(part, os.O_CREAT | os.O_EXCL | os.O_WRONLY, mode))


def own_folder(folder: Path) -> None:
    """The folder, made now for its owner alone where it is not there."""
    if not folder.is_dir():
        folder.parent.mkdir(parents=True, exist_ok=True)
        folder.mkdir(mode=0o700, exist_ok=True)


@contextmanager
def whole(target: Path) -> Iterator[Path]:
    """A file to write what becomes `target` at the end, or leaves it as it was after an error."""
    part = part_beside(target)
    begin(part)
    try:
        yield part
        part.replace(target)
    finally:
        with suppress(OSError):
            part.unlink(missing_ok=True)
