"""Opening an archive that anybody may have made: what is in it is bounded before it is read.

All limits are common practice, no source; ten years of readings of twenty loggers, one a
minute, take 8 GB.
"""

from __future__ import annotations

import io
import re
import stat
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO

from warmside.core.pictures.content import MOST_BYTES

MEMBER = re.compile(
    r"README\.txt|schema\.sql|archive\.json|tables/[A-Za-z][A-Za-z0-9_]*\.jsonl|"
    r"pictures/[0-9a-f]{64}\.(jpg|png|pdf)"
)
PICTURES = "pictures/"
MOST_DIRECTORY = 4 << 20  # bytes of the archive's own table of contents
MOST_TOGETHER = 16 << 30  # bytes of all members, unpacked
MOST_TEXT = 1 << 20  # bytes of schema.sql and archive.json
MOST_LINE = 1 << 20  # characters of one row
MOST_RATIO = 200  # unpacked to packed; rows of a logger reach 40
SMALL = 1 << 20  # bytes below which no ratio is looked at
END = b"PK\x05\x06"
END_BYTES = 22
LARGE_WHERE, LARGE_WHERE_BYTES = b"PK\x06\x07", 20  # where the end record of a large archive is
LARGE_END, LARGE_END_BYTES = b"PK\x06\x06", 56
"""Of archives beyond 2 GB: APPNOTE 6.3.10, 4.3.14 and 4.3.15."""


@contextmanager
def opened(path: Path) -> Iterator[zipfile.ZipFile]:
    """The archive, once its members are known to be few, plain and of a sane size.

    Raises ValueError for one that is not, BadZipFile for what is none.
    """
    with path.open("rb") as file:
        _check_directory(file)
        with zipfile.ZipFile(file) as archive:
            _check_members(archive.infolist(), path.stat().st_size)
            yield archive


def _check_directory(file: IO[bytes]) -> None:
    """Before zipfile reads the table of contents whole: its size as the end record says it."""
    size = file.seek(0, io.SEEK_END)
    file.seek(max(0, size - END_BYTES - (1 << 16)))
    tail = file.read()
    where = len(tail) - END_BYTES
    if not (tail[where : where + 4] == END and tail.endswith(b"\0\0")):
        where = tail.rfind(END)
    if where < 0:
        raise zipfile.BadZipFile("it is no ZIP file")
    directory = int.from_bytes(tail[where + 12 : where + 16], "little")
    before = tail[max(0, where - LARGE_WHERE_BYTES) : where]
    if LARGE_WHERE in before:
        directory = _large_directory(file, int.from_bytes(before[8:16], "little"))
    if directory > MOST_DIRECTORY:
        raise ValueError("it has too many members")


def _large_directory(file: IO[bytes], where: int) -> int:
    """The size of the table of contents of a large archive."""
    if where > file.seek(0, io.SEEK_END):
        raise ValueError("its end is broken")
    file.seek(where)
    end = file.read(LARGE_END_BYTES)
    if not end.startswith(LARGE_END) or len(end) < LARGE_END_BYTES:
        raise ValueError("its end is broken")
    return int.from_bytes(end[40:48], "little")


def _check_members(members: list[zipfile.ZipInfo], size: int) -> None:
    names = [m.filename for m in members]
    if len(set(names)) < len(names):
        raise ValueError("two of its members have one name")
    for member in members:
        _check_member(member)
    pictures = sum(m.file_size for m in members if m.filename.startswith(PICTURES))
    if pictures > size:  # they are stored as they are
        raise ValueError("its pictures are larger than itself")
    together = sum(m.file_size for m in members) - pictures
    if together > MOST_TOGETHER or together > max(SMALL, size * MOST_RATIO):
        raise ValueError(f"it would unpack to {together} bytes, too many for its size")


def _check_member(member: zipfile.ZipInfo) -> None:
    name = ascii(member.filename[:80])
    if not MEMBER.fullmatch(member.filename) or member.is_dir():
        raise ValueError(f"its member {name} is none of a collection's archive")
    if stat.S_IFMT(member.external_attr >> 16) not in (0, stat.S_IFREG):
        raise ValueError(f"its member {name} is no plain file")
    if member.flag_bits & 1 or member.compress_type not in (
        zipfile.ZIP_STORED,
        zipfile.ZIP_DEFLATED,
    ):
        raise ValueError(f"its member {name} is packed in a way that is not read here")
    picture = member.filename.startswith(PICTURES)
    if picture and (member.compress_type != zipfile.ZIP_STORED or member.file_size > MOST_BYTES):
        raise ValueError(f"its member {name} is no picture as this program writes them")
    if member.file_size > max(SMALL, member.compress_size * MOST_RATIO):
        raise ValueError(f"its member {name} would unpack to {member.file_size} bytes")
    if not member.filename.startswith(("tables/", PICTURES)) and member.file_size > MOST_TEXT:
        raise ValueError(f"its member {name} is too long")


def text_of(archive: zipfile.ZipFile, name: str) -> str:
    """A short member as text; raises KeyError where there is none."""
    return archive.read(name).decode()


def lines_of(member: IO[bytes]) -> Iterator[str]:
    """The lines of a member that are not blank, one after the other; ValueError for a long one."""
    # with halves of characters as the file may hold them
    text = io.TextIOWrapper(member, encoding="utf-8", errors="surrogatepass", newline="\n")
    with text:
        while line := text.readline(MOST_LINE + 1):
            if len(line) > MOST_LINE:
                raise ValueError(f"a row of it is longer than {MOST_LINE} characters")
            if not line.isspace():
                yield line
