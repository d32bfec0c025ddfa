"""Files that a command writes for the keeper: never over one that was not written here.

Which files were written here, and how they were left, lies in the user's cache folder: losing it
only means that the keeper is asked once more.
"""

from __future__ import annotations

import contextlib
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import msgspec

from warmside.core.file.half_made import whole
from warmside.core.file.places import check_place
from warmside.core.session.session import Session
from warmside.core.values.errors import FileProblem, Refused

MOST = 500  # files that are remembered, the newest ones


def may_write(context: Any, path: Path) -> None:
    """Raise Refused where a file is there that was not left so by us, unless it may be replaced.

    On a terminal the keeper is asked; elsewhere --replace says so. Nothing replaces the collection.
    """
    session: Session = context.obj
    check_place(path)
    try:
        if path.exists() and session.path.exists() and path.samefile(session.path):
            raise Refused(f"{path} is the collection itself; save the answer in another file")
        if context.meta.get("warmside.replace") or not path.is_file() or is_ours(path):
            return
    except OSError as error:
        raise FileProblem(f"cannot write {path}: {error.strerror}") from error
    said = f"{path} is there, and is no file that warmside wrote and left so"
    if not session.asks:
        raise Refused(f"{said}; name another file, or add --replace to write over it")
    import typer

    if not typer.confirm(f"{said}; write over it?", err=True):
        raise Refused("nothing was written")
    context.meta["warmside.replace"] = True


@contextmanager
def written(path: Path) -> Iterator[Path]:
    """A file to write what becomes `path`, whole or not at all, and then is known as ours.

    A device, which cannot be put in place, is written as it is.
    """
    try:
        if path.exists() and not path.is_file():
            yield path
            return
        with whole(path.resolve()) as part:
            yield part
    except OSError as error:
        raise FileProblem(f"cannot write {path}: {error.strerror}") from error
    with contextlib.suppress(OSError):
        _remember(path)


def is_ours(path: Path) -> bool:
    """Whether it is as we left it."""
    try:
        return _known().get(str(path.resolve())) == _as_it_is(path)
    except OSError:
        return False


def _remember(path: Path) -> None:
    place = str(path.resolve())
    known = {p: left for p, left in _known().items() if p != place}
    known[place] = _as_it_is(path)
    memory = _memory()
    memory.parent.mkdir(parents=True, exist_ok=True)
    memory.write_bytes(msgspec.json.encode(dict(list(known.items())[-MOST:])))


def _known() -> dict[str, str]:
    """Files by their paths, each with the size and checksum that we left it with."""
    try:
        return msgspec.json.decode(_memory().read_bytes(), type=dict[str, str])
    except (OSError, ValueError, msgspec.DecodeError):
        return {}


def _as_it_is(path: Path) -> str:
    raw = path.read_bytes()
    return f"{len(raw)} {zlib.crc32(raw):08x}"


def _memory() -> Path:
    from platformdirs import user_cache_path

    return user_cache_path("warmside", appauthor=False) / "saved.json"
