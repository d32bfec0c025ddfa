"""Short codes for animals and enclosures: what labels carry and keepers type."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Container

from warmside.core.values.errors import BadInput

RULE = re.compile(r"[A-Z0-9][A-Z0-9-]{0,11}")


def checked(code: str) -> str:
    """The code in upper case; raises BadInput unless it is 1 to 12 letters, digits or hyphens."""
    upper = code.strip().upper()
    if not RULE.fullmatch(upper):
        raise BadInput(
            f"{code!r} is no code: use 1 to 12 letters A-Z, digits or hyphens, such as EMB or V-02"
        )
    return upper


def suggested(name: str, taken: Container[str], fallback: str = "A") -> str:
    """A free code from the name's first letters: Ember gives EMB, then EMB2, EMB3 …"""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().upper()
    stem = re.sub(r"[^A-Z0-9]", "", plain)[:3] or fallback
    if stem not in taken:
        return stem
    number = 2
    while f"{stem}{number}" in taken:
        number += 1
    return f"{stem}{number}"
