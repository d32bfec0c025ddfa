"""Reading the files that a keeper gives: never the collection itself, and no more than is sane."""

from __future__ import annotations

import stat
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import suppress
from pathlib import Path

from msgspec import Struct

from warmside.core.pictures.content import ENDINGS, MOST_BYTES
from warmside.core.pictures.kept import too_many_bytes
from warmside.core.values.errors import BadInput
from warmside.core.values.hints import quoted


class Upload(Struct, frozen=True):
    """A file that a phone sent: what it is called there, and what reads it."""

    name: str
    read: Callable[[], bytes]


Given = Path | Upload
MOST_FILES = 5000  # in one go; common practice, no source


def read_given(given: Given, collection: Path) -> bytes:
    """The bytes of a file; BadInput where it is none that can be taken in."""
    return given.read() if isinstance(given, Upload) else _read(given, collection)


def _read(path: Path, collection: Path) -> bytes:
    """A file that SQLite may have open is not opened: closing it would drop the locks on it."""
    name = quoted(path.name)
    try:
        about = path.stat()
        if not stat.S_ISREG(about.st_mode):
            raise BadInput(f"{name} is no file; name a picture or a paper")
        if any(_is_same(path, beside) for beside in _files_of(collection)):
            raise BadInput(f"{name} is the collection itself; name a picture or a paper")
        if about.st_size > MOST_BYTES:
            raise BadInput(too_many_bytes(path.name))
        return path.read_bytes()
    except FileNotFoundError:
        raise BadInput(f"there is no file {name}; look at its name") from None
    except OSError as error:
        raise BadInput(f"cannot read {name}: {error.strerror}") from error
    except ValueError as error:  # a name that no system takes
        raise BadInput(f"cannot read {name}: {error}") from error


def _files_of(collection: Path) -> Iterator[Path]:
    yield from (collection.with_name(collection.name + e) for e in ("", "-journal", "-wal"))


def _is_same(path: Path, other: Path) -> bool:
    with suppress(OSError):
        return path.samefile(other)
    return False


def listed(given: Iterable[Given]) -> list[Given]:
    """The files that were named, and of a folder those within that a name says are pictures."""
    files = [file for one in given for file in _files_in(one)]
    if len(files) > MOST_FILES:
        raise BadInput(f"{len(files)} files are too many in one go; take in {MOST_FILES} at most")
    return list(dict.fromkeys(files))


def _files_in(given: Given) -> Sequence[Given]:
    if isinstance(given, Path) and _is_folder(given):
        return _within(given)
    return [given]


def _is_folder(path: Path) -> bool:
    with suppress(OSError, ValueError):  # a name that is too long is no folder's
        return path.is_dir()
    return False


def _within(folder: Path) -> list[Path]:
    try:
        found = sorted(p for p in folder.iterdir() if _looks_right(p))
    except OSError as error:
        raise BadInput(f"cannot read {quoted(folder.name)}: {error.strerror}") from error
    if not found:
        raise BadInput(
            f"there is no picture and no paper in {quoted(folder.name)}; "
            "what can be taken in: JPEG, PNG, WebP, HEIC, PDF"
        )
    return found


def _looks_right(path: Path) -> bool:
    ending = path.suffix.removeprefix(".").casefold()
    return ending in ENDINGS and not path.name.startswith(".")
