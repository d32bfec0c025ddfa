"""Looking at each file that was given: known already, sound and put apart, or refused in a line."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import date
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from warmside.core.file.pictures.places import pictures_of
from warmside.core.file.pictures.reading import Given, read_given
from warmside.core.file.pictures.staging import Staged
from warmside.core.file.pictures.store import is_sound
from warmside.core.pictures.kept import Taken, digest_of, look_at
from warmside.core.record.book import Book
from warmside.core.record.pictures import KeptFile, Picture
from warmside.core.values.calendar_checks import FIRST_YEAR
from warmside.core.values.counts import counted
from warmside.core.values.errors import BadInput, Doubtful

Watch = Callable[[Iterable[Given], int], Iterator[Given]]
"""Gives the files one by one, while somebody counts them."""
NAMED = 3


class Looked(Struct, frozen=True):
    """A file as it is kept, without its bytes; its day, and whether the camera's clock said it.

    `number` is its place among the files that were given.
    """

    number: int
    taken: Taken
    day: date
    by_camera: bool


class Known(Struct, frozen=True):
    """What is on record before: the collection's place, its pictures, and today."""

    collection: Path
    pictures: tuple[Picture, ...]
    today: date


def known_of(book: Book, collection: Path, today: date) -> Known:
    """What the record knows before files are looked at, on the day on which they were given."""
    return Known(collection, tuple(book.pictures.values()), today)


def look_through(
    files: Sequence[Given], known: Known, said: date | None, stage: Staged, watch: Watch
) -> tuple[list[Looked], list[str]]:
    """The files that can be taken in, put apart, and why others cannot; a single one raises."""
    looked, refused = list[Looked](), list[str]()
    for number, file in enumerate(watch(files, len(files))):
        try:
            taken = _taken(file, known)
        except BadInput as problem:
            if len(files) == 1:
                raise
            refused.append(str(problem))
            continue
        if taken.raw:
            stage.add(taken)
        bare = replace(taken, raw=b"", small=b"")
        looked.append(Looked(number, bare, *_day(taken, said, known)))
    return looked, refused


def _taken(file: Given, known: Known) -> Taken:
    """What is known by its digest is not decoded again, and keeps the file that it has."""
    raw = read_given(file, known.collection)
    given, folder = digest_of(raw), pictures_of(known.collection)
    for p in known.pictures:
        if given in (p.given, p.digest) and is_sound(folder, KeptFile(p.digest, p.kind)):
            return Taken(b"", p.kind, p.digest, p.given, p.size_bytes, b"", p.width, p.height)
    return look_at(raw, file.name)


def _day(taken: Taken, said: date | None, known: Known) -> tuple[date, bool]:
    """The day that was typed, else the one of the same file before, the camera's, or today."""
    today = known.today
    if said is not None:
        return said, False
    if not taken.raw:
        return next((p.day for p in known.pictures if p.digest == taken.digest), today), False
    if taken.when is not None and taken.when.year >= FIRST_YEAR and taken.when.date() <= today:
        return taken.when.date(), True
    return today, False


def refuse(refused: Sequence[str], total: int) -> None:
    """Raise Doubtful naming the first that cannot be taken in; confirmed, they are left out."""
    more = f"; and {len(refused) - NAMED} more" if len(refused) > NAMED else ""
    raise Doubtful(
        f"{len(refused)} of {counted(total, 'file')} cannot be taken in: "
        f"{'; '.join(refused[:NAMED])}{more}; nothing was taken in; confirmed, they are left out",
        refused,
    )
