"""A folder of pictures whose names say whose they are: by a folder named by a code, or in front."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from warmside.core.doing.pictures.subjects import of_whom
from warmside.core.file.pictures.reading import Given, listed
from warmside.core.record.book import Book
from warmside.core.values.errors import BadInput, NotFound
from warmside.core.values.hints import quoted


def dropped(book: Book, folder: Path) -> tuple[list[tuple[str, Given]], list[str]]:
    """Each file with the code or name that it begins with, and why others belong to nobody."""
    found, strange = list[tuple[str, Given]](), list[str]()
    for file in listed(_folders(folder)):
        assert isinstance(file, Path)
        subject = next((s for s in _candidates(file, folder) if _is_known(book, s)), None)
        if subject is not None:
            found.append((subject, file))
        else:
            strange.append(
                f"{quoted(file.name)} names nobody; begin its name with a code, such as EMB-1.jpg, "
                "or put it into a folder that has a code as its name"
            )
    return found, strange


def _folders(folder: Path) -> list[Path]:
    """The folder and those within it that are not hidden; an empty one is no matter."""
    try:
        within = sorted(p for p in folder.iterdir() if p.is_dir() and not p.name.startswith("."))
        own = any(p.is_file() for p in folder.iterdir())
    except OSError as error:
        raise BadInput(f"cannot read the folder {quoted(folder.name)}: {error.strerror}") from error
    return [*([folder] if own or not within else []), *(p for p in within if any(p.iterdir()))]


def _candidates(file: Path, folder: Path) -> Iterator[str]:
    """What may be a code: the folder's name, else how the file's name begins, longest first."""
    if file.parent != folder:
        yield file.parent.name
    parts = re.split(r"([ _-]+)", file.stem)
    for end in range(len(parts), 0, -2):
        yield "".join(parts[:end])


def _is_known(book: Book, subject: str) -> bool:
    try:
        of_whom(book, subject)
    except NotFound:
        return False
    return True
