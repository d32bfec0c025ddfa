"""How an error line quotes what was typed, and what it suggests instead."""

from __future__ import annotations

import difflib
from collections.abc import Iterable

_LONGEST_QUOTE = 40


def quoted(text: str) -> str:
    """What was typed, fit for one line: no control characters, shortened; `nothing` when blank."""
    plain = " ".join("".join(c if c.isprintable() else " " for c in text).split())
    if len(plain) > _LONGEST_QUOTE:
        plain = plain[: _LONGEST_QUOTE - 1] + "…"
    return plain or "nothing"


def closest(word: str, known: Iterable[str]) -> str | None:
    """The known word that is nearly the one typed, if there is one; case is ignored."""
    spelled = {k.casefold(): k for k in known}
    found = difflib.get_close_matches(word.casefold(), spelled, n=1, cutoff=0.6)
    return spelled[found[0]] if found else None


def near_miss(word: str, known: Iterable[str]) -> str:
    """` (did you mean 'x'?)` where something known is close, else nothing."""
    found = closest(word, known)
    return f" (did you mean {found!r}?)" if found else ""
