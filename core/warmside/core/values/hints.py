"""What was typed, as an error line quotes it, suggests instead of it, or refuses it."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from unicodedata import category

from warmside.core.values.errors import BadInput

_LONGEST_QUOTE = 40
UNPLAIN = ("Cc", "Cs")


def quoted(text: str) -> str:
    """What was typed, fit for one line: no control characters, shortened; `nothing` when blank."""
    plain = " ".join("".join(c if c.isprintable() else " " for c in text).split())
    if len(plain) > _LONGEST_QUOTE:
        plain = plain[: _LONGEST_QUOTE - 1] + "…"
    return plain or "nothing"


def plain_text(what: str, text: str) -> str:
    """The text itself; raises BadInput where it holds control characters or broken ones."""
    if any(not c.isprintable() and c not in "\n\t" and category(c) in UNPLAIN for c in text):
        raise BadInput(f"{what} holds control characters or broken text; type it again")
    return text


def closest(word: str, known: Iterable[str]) -> str | None:
    """The known word that is nearly the one typed, if there is one; case is ignored."""
    spelled = {k.casefold(): k for k in known}
    found = difflib.get_close_matches(word.casefold(), spelled, n=1, cutoff=0.6)
    return spelled[found[0]] if found else None


def near_miss(word: str, known: Iterable[str]) -> str:
    """` (did you mean 'x'?)` where something known is close, else nothing."""
    found = closest(word, known)
    return f" (did you mean {found!r}?)" if found else ""
