"""The list of signs: words, synonyms, how soon, what not to do."""

from __future__ import annotations

import re
from functools import cache

from msgspec import Struct

from warmside.api import Level, Source, sourced_rows

PACKAGE = "warmside.plugins.signs"


class KnownSign(Struct, frozen=True):
    """A sign: its word, words for it in notes, how soon, and what not to do meanwhile."""

    word: str
    also: tuple[str, ...]
    level: Level
    care: str
    source: Source


@cache
def known_signs() -> dict[str, KnownSign]:
    """All signs by their word."""
    rows = sourced_rows(PACKAGE, "signs")
    made = (
        KnownSign(r["word"], tuple(r["also"]), Level(r["level"]), r["care"], r.source) for r in rows
    )
    return {sign.word: sign for sign in made}


_DENIED = re.compile(r"\b(no|not|never|without|stopped|gone|nothing|free of)\b[^.;,!?]{0,25}$")
_AFTER = re.compile(r"^[^.;!?]{0,12}\b(gone|over|healed|stopped)\b")


def signs_in(text: str) -> tuple[KnownSign, ...]:
    """The signs that a note names and does not deny, the most urgent first."""
    folded = text.casefold()
    found = {}
    for pattern, word in _patterns():
        for match in pattern.finditer(folded):
            if _DENIED.search(folded[: match.start()]) or _AFTER.search(folded[match.end() :]):
                continue
            found[word] = known_signs()[word]
    levels = list(Level)
    return tuple(sorted(found.values(), key=lambda s: levels.index(s.level)))


@cache
def _patterns() -> tuple[tuple[re.Pattern[str], str], ...]:
    return tuple(
        (re.compile(rf"(?<!\w)({'|'.join(map(re.escape, (s.word, *s.also)))})(?!\w)"), s.word)
        for s in known_signs().values()
    )
