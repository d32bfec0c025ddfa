"""What a file is by its first bytes, whether its name says so too, and whether it is one alone."""

from __future__ import annotations

from enum import Enum
from pathlib import PurePath

from warmside.core.values.errors import BadInput
from warmside.core.values.hints import quoted

MOST_BYTES = 64 << 20  # of one file; common practice, no source
HEIC_BRANDS = {b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"msf1"}
PDF_HEADER = b"%PDF-"
PDF_WITHIN = 1024  # readers look so far for the header: ISO 32000-1:2008, annex H, note 13
ZIP_END = b"PK\x05\x06"
ZIP_END_BYTES = 22
ZIP_COMMENT = 0xFFFF


class Format(Enum):
    """What can be taken in, with the endings of names that say so."""

    JPEG = "JPEG", ("jpg", "jpeg", "jpe", "jfif")
    PNG = "PNG", ("png",)
    WEBP = "WebP", ("webp",)
    HEIC = "HEIC", ("heic", "heif", "hif")
    PDF = "PDF", ("pdf",)

    def __init__(self, title: str, endings: tuple[str, ...]) -> None:
        self.title = title
        self.endings = endings


ENDINGS = frozenset(ending for one in Format for ending in one.endings)


def format_of(raw: bytes, name: str) -> Format:
    """What the content is; BadInput where it is none of these, another than named, or two at once.

    `name` is the file's own name without its folder, and only what is said of it.
    """
    found = _by_first_bytes(raw)
    if found is None:
        raise BadInput(_unknown(raw, name))
    ending = PurePath(name).suffix.removeprefix(".").casefold()
    if ending and ending not in found.endings:
        raise BadInput(
            f"{quoted(name)} is {found.title} by its content; "
            f"give its name the ending .{found.endings[0]} if that is what you mean to keep"
        )
    if other := _also(raw, found):
        raise BadInput(
            f"{quoted(name)} is {found.title} and {other} at once, which no camera makes; "
            "take the picture again, or print it anew as a PDF"
        )
    return found


def _by_first_bytes(raw: bytes) -> Format | None:
    if raw.startswith(b"\xff\xd8\xff"):
        return Format.JPEG
    if raw.startswith(b"\x89PNG\r\n\x1a\n"):
        return Format.PNG
    if raw[:4] == b"RIFF" and raw[8:12] == b"WEBP":
        return Format.WEBP
    if raw[4:8] == b"ftyp" and raw[8:12] in HEIC_BRANDS:
        return Format.HEIC
    return Format.PDF if raw.startswith(PDF_HEADER) else None


def _unknown(raw: bytes, name: str) -> str:
    if not raw:
        return f"{quoted(name)} is empty; look whether it was copied whole"
    return (
        f"{quoted(name)} is no picture and no paper that is read here; "
        "what can be taken in: JPEG, PNG, WebP, HEIC, PDF"
    )


def _also(raw: bytes, found: Format) -> str:
    """What else a program could take the file for; nothing is the usual case."""
    if found is not Format.PDF and PDF_HEADER in raw[:PDF_WITHIN]:
        return "PDF"
    return "ZIP" if _ends_as_zip(raw) else ""


def _ends_as_zip(raw: bytes) -> bool:
    """Whether an end record of ZIP reaches to the last byte, with its comment (APPNOTE 4.3.16)."""
    tail = raw[-(ZIP_END_BYTES + ZIP_COMMENT) :]
    at = tail.rfind(ZIP_END)
    while at >= 0:
        comment = int.from_bytes(tail[at + 20 : at + 22], "little")
        if at + ZIP_END_BYTES + comment == len(tail):
            return True
        at = tail.rfind(ZIP_END, 0, at)
    return False
