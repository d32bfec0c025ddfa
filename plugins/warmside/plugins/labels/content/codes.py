"""The short identifier that a label carries: printed, in its QR, and as a scanner types it.

Our own scheme: `WS.E.<code>` for an enclosure, `WS.A.<code>` for an animal, the code in
percent encoding (RFC 3986). Capitals and dots keep the QR in its small
alphanumeric mode, and a dot is typed alike under most keyboard layouts that a scanner may meet.
"""

from __future__ import annotations

import re
from enum import StrEnum
from urllib.parse import quote, unquote

from msgspec import Struct

from warmside.api import BadInput, quoted
from warmside.plugins.labels.typesetting.wording import is_safe

LONGEST_PAYLOAD = 60
_PREFIX = re.compile(r"https?://[A-Za-z0-9][!-~]*[/=#?]")
_SCANNED = re.compile(r"(?:^|.*[/?#=])WS\.([EA])\.([^/?#&=\s]+)", re.IGNORECASE)
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


def payload(subject: Subject, code: str, prefix: str = "") -> str:
    """What the QR says; `prefix` is empty or a web address ending in /, =, # or ?.

    BadInput for a code that print and scan cannot share, and for more than 60 characters.
    """
    if not code or code != code.strip() or not is_safe(code):
        raise BadInput(
            f"code {quoted(code)!r} cannot stand on a label; use letters, digits and dashes"
        )
    text = checked_prefix(prefix) + f"WS.{subject.value}.{quote(code, safe='')}"
    if len(text) > LONGEST_PAYLOAD:
        raise BadInput(
            f"the QR of {quoted(code)!r} would hold {len(text)} characters, at most"
            f" {LONGEST_PAYLOAD} scan well; shorten the code or the address before it"
        )
    return text


def checked_prefix(prefix: str) -> str:
    """A web address to stand before codes, or nothing; BadInput for another text."""
    if prefix and not _PREFIX.fullmatch(prefix):
        raise BadInput(
            f"address {quoted(prefix)!r} cannot stand before a code; write it like"
            " https://example.org/ with / = # or ? at its end"
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
