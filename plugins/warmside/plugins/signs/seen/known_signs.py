"""The list of signs: words, synonyms, how soon, what not to do."""

from __future__ import annotations

import re
from functools import cache

from msgspec import Struct

from warmside.api import Level, Source, sourced_rows

PACKAGE = "warmside.plugins.signs"


class KnownSign(Struct, frozen=True):
    """A sign: its word, words for it in notes, how soon, and what not to do meanwhile.

    `unless` are words that, in one sentence with it, speak of something else: of a threat, a meal.
    """

    word: str
    also: tuple[str, ...]
    unless: tuple[str, ...]
    level: Level
    care: str
    source: Source


@cache
def known_signs() -> dict[str, KnownSign]:
    """All signs by their word."""
    rows = sourced_rows(PACKAGE, "signs")
    made = (
        KnownSign(
            r["word"],
            tuple(r["also"]),
            tuple(r.get("unless", ())),
            Level(r["level"]),
            r["care"],
            r.source,
        )
        for r in rows
    )
    return {sign.word: sign for sign in made}


_DENIED = re.compile(r"\b(no|not|never|without|stopped|gone|nothing|free of)\b[^.;,!?]{0,25}$")
_ENDS = ".;!?"
_AFTER = re.compile(r"^[^.;!?]{0,12}\b(gone|(?<!all )over|healed|stopped)\b")


def signs_in(text: str) -> tuple[KnownSign, ...]:
    """The signs that a note names and does not deny, the most urgent first."""
    folded = text.casefold()
    found = {}
    for pattern, word in _patterns():
        for match in pattern.finditer(folded):
            if not _is_denied(folded, match) and not _is_harmless(folded, match, word):
                found[word] = known_signs()[word]
    levels = list(Level)
    return tuple(sorted(found.values(), key=lambda s: levels.index(s.level)))


def _is_denied(text: str, match: re.Match[str]) -> bool:
    return bool(_DENIED.search(text[: match.start()]) or _AFTER.search(text[match.end() :]))


def _is_harmless(text: str, match: re.Match[str], word: str) -> bool:
    """Whether the sentence around it says that it was something else."""
    begin = max(text.rfind(end, 0, match.start()) for end in _ENDS)
    after = [place for end in _ENDS if (place := text.find(end, match.end())) >= 0]
    sentence = text[begin + 1 : min(after, default=len(text))]
    return any(one in sentence for one in known_signs()[word].unless)


@cache
def _patterns() -> tuple[tuple[re.Pattern[str], str], ...]:
    return tuple(
        (re.compile(rf"(?<!\w)({'|'.join(map(re.escape, (s.word, *s.also)))})(?!\w)"), s.word)
        for s in known_signs().values()
    )
