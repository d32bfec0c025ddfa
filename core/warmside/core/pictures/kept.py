"""What a picture is kept as: its digest names it, so that the same is kept once."""

from __future__ import annotations

import hashlib
import re
from datetime import datetime
from pathlib import PurePath

from msgspec import Struct

from warmside.core.pictures.content import MOST_BYTES, Format, format_of
from warmside.core.pictures.papers import check_paper
from warmside.core.values.errors import BadInput
from warmside.core.values.hints import quoted

KINDS = ("jpg", "png", "pdf")
NAME = re.compile(r"[0-9a-f]{64}\.(jpg|png|pdf)")
SMALL_ENDING = ".small.jpg"


class Taken(Struct, frozen=True):
    """A file that was looked at: the bytes to keep, their digest, and the digest of those given.

    `small` is the preview, empty for a paper. Sizes are pixels, None for a paper. `when` is what
    the camera's clock said, in its own local time.
    """

    raw: bytes
    kind: str
    digest: str
    given: str
    size_bytes: int
    small: bytes = b""
    width: int | None = None
    height: int | None = None
    when: datetime | None = None


def digest_of(raw: bytes) -> str:
    """SHA-256 (FIPS 180-4) in hexadecimal digits."""
    return hashlib.sha256(raw).hexdigest()


def file_name(digest: str, kind: str) -> str:
    """The name of the file that a picture is kept in."""
    return f"{digest}.{kind}"


def small_name(digest: str) -> str:
    """The name of the file of its preview."""
    return digest + SMALL_ENDING


def look_at(raw: bytes, name: str) -> Taken:
    """The file as it is kept; BadInput, in a line, for all that is no sound picture or paper."""
    name = PurePath(name.replace("\\", "/")).name
    if len(raw) > MOST_BYTES:
        raise BadInput(too_many_bytes(name))
    format, given = format_of(raw, name), digest_of(raw)
    if format is Format.PDF:
        check_paper(raw, name)
        return Taken(raw, "pdf", given, given, len(raw))
    from warmside.core.pictures.photos import clean_photo  # imports Pillow

    photo = clean_photo(raw, format, name)
    size = (photo.width, photo.height)
    digest = digest_of(photo.raw)
    length = len(photo.raw)
    return Taken(photo.raw, photo.kind, digest, given, length, photo.small, *size, photo.taken)


def too_many_bytes(name: str) -> str:
    """That a file is larger than any that is taken in."""
    return f"{quoted(name)} is larger than {MOST_BYTES >> 20} MB; save it smaller"
