"""The short identifier that a label carries: printed, in its QR, and as a scanner types it.

Our own scheme: `WS.E.<code>` for an enclosure, `WS.A.<code>` for an animal, the code in
percent encoding (RFC 3986); before it a web address, or in its place a line that can be read.
Capitals and dots keep the QR in its small
alphanumeric mode, and a dot is typed alike under most keyboard layouts that a scanner may meet.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from enum import StrEnum
from urllib.parse import quote, unquote

from msgspec import Struct

from warmside.api import BadInput, quoted
from warmside.plugins.labels.typesetting.wording import is_safe

LONGEST_PAYLOAD = 60
SMALL_PAYLOAD = 38  # a QR of version 2-M in alphanumeric mode; ISO/IEC 18004, table 7 (from memory)
_BETWEEN = " - "
_NOT_SMALL = re.compile(r"[^A-Z0-9+-]")
_PREFIX = re.compile(r"https?://[A-Za-z0-9][!-~]*[/=#?]", re.IGNORECASE)
_SCANNED = re.compile(r"(?:^|.*[/?#=\s])WS\.([EA])\.([^/?#&=\s]+)", re.IGNORECASE)
_ENCODED = re.compile(r"(?:%[0-9A-Fa-f]{2}|[^%])*")
_LONGEST_SCAN = 400


class Subject(StrEnum):
    """What a code names."""

    ENCLOSURE = "E"
    ANIMAL = "A"


class ScannedCode(Struct, frozen=True):
    """What a scanner typed; `subject` is None for a bare code, which may name either."""

    subject: Subject | None
    code: str


def payload(subject: Subject, code: str, prefix: str = "", who: Sequence[str] = ()) -> str:
    """What the QR says; `prefix` is empty or a web address ending in /, =, # or ?.

    Without an address a phone shows a line that can be read: `who` before the code, as far as
    there is room.

    BadInput for a code that print and scan cannot share, and for more than 60 characters.
    """
    if not code or code != code.strip() or not is_safe(code):
        raise BadInput(
            f"code {quoted(code)!r} cannot stand on a label; use letters, digits and dashes"
        )
    bare = f"WS.{subject.value}.{quote(code, safe='')}"
    text = checked_prefix(prefix) + bare if prefix else _led_by(who, bare)
    if len(text) > LONGEST_PAYLOAD:
        raise BadInput(
            f"the QR of {quoted(code)!r} would hold {len(text)} characters, at most"
            f" {LONGEST_PAYLOAD} scan well; shorten the code or the address before it"
        )
    return text


def _led_by(who: Sequence[str], bare: str) -> str:
    """`TUPPENCE - KENYAN SAND BOA - WS.E.LOW`, as many parts as keep the QR small."""
    parts = [said for text in who if (said := _plain_capitals(text))]
    while parts:
        text = _BETWEEN.join((*parts, bare))
        if len(text) <= SMALL_PAYLOAD:
            return text
        parts.pop()
    return bare


def _plain_capitals(text: str) -> str:
    """A text in the signs of the QR's alphanumeric mode: accents off, capitals, no other signs."""
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode().upper()
    return " ".join(_NOT_SMALL.sub(" ", plain).split())


def checked_prefix(prefix: str) -> str:
    """A web address to stand before codes, or nothing; BadInput for another text."""
    if prefix and not _PREFIX.fullmatch(prefix):
        raise BadInput(
            f"address {quoted(prefix)!r} cannot stand before a code; write it like"
            " https://example.org/ with / = # or ? at its end"
        )
    return prefix


def settable_prefix(prefix: str) -> str:
    """As `checked_prefix`, for one that leaves room for the shortest code, too."""
    checked_prefix(prefix)
    if len(prefix) > LONGEST_PAYLOAD - len("WS.E.X"):
        raise BadInput(
            f"address {quoted(prefix)!r} leaves no room for a code: a QR of more than"
            f" {LONGEST_PAYLOAD} characters scans badly; take a shorter one"
        )
    return prefix


def parse_scanned(text: str) -> ScannedCode:
    """What a scanner typed or a keeper copied; BadInput for what is no code of ours."""
    typed = text.strip().strip("\x00\ufeff").strip()
    if not typed or len(typed) > _LONGEST_SCAN or not is_safe(typed):
        raise BadInput(f"scanned {quoted(text)!r} is no code; scan the label again")
    found = _SCANNED.fullmatch(typed)
    if found:
        return ScannedCode(Subject(found[1].upper()), _decoded(found[2]))
    if "://" in typed:
        raise BadInput(f"scanned {quoted(typed)!r} is an address without a code of this program")
    return ScannedCode(None, typed)


def _decoded(part: str) -> str:
    try:
        code = unquote(part, errors="strict") if _ENCODED.fullmatch(part) else ""
    except UnicodeDecodeError:
        code = ""
    if not code or not is_safe(code):
        raise BadInput(f"scanned code {quoted(part)!r} is damaged; scan the label again")
    return code
