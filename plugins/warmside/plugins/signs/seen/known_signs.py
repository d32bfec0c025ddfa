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
    `may` are those of its words that keepers use for much else.
    """

    word: str
    also: tuple[str, ...]
    unless: tuple[str, ...]
    may: tuple[str, ...]
    level: Level
    care: str
    source: Source


class Named(Struct, frozen=True):
    """A sign that a note names, and how loudly it is to be asked about.

    At the sign's own level where the words hardly mean anything else; words that may are asked
    about as soon to be looked at beside a part of the body, else as a note.
    """

    sign: KnownSign
    level: Level


@cache
def known_signs() -> dict[str, KnownSign]:
    """All signs by their word."""
    rows = sourced_rows(PACKAGE, "signs")
    made = (
        KnownSign(
            r["word"],
            tuple(r["also"]),
            tuple(r.get("unless", ())),
            tuple(r.get("may", ())),
            Level(r["level"]),
            r["care"],
            r.source,
        )
        for r in rows
    )
    return {sign.word: sign for sign in made}


_LEVELS = list(Level)
_BODY = re.compile(
    r"\b(back|belly|body|chin|claws?|ears?|eyes?|face|foot|feet|gums?|head|jaw|legs?|limbs?|mouth|"
    r"muscles?|neck|nose|nostrils?|ribs?|scales?|shell|skin|snout|spine|tail|throat|toes?|tongue|"
    r"vent)\b"
)
_DENIED = re.compile(r"\b(no|not|never|without|stopped|gone|nothing|free of)\b[^.;,!?]{0,25}$")
_ENDS = ".;!?"
_FEW = 3  # a part of a sentence of so few words speaks of little else (our rule)
_AFTER = re.compile(r"^[^.;!?]{0,12}\b(gone|(is|are|was|were|now) over|healed|stopped)\b")


def signs_in(text: str) -> tuple[Named, ...]:
    """The signs that a note names and does not deny, the most urgent first."""
    folded = text.casefold()
    found: dict[str, Level] = {}
    for pattern, word in _patterns():
        for match in pattern.finditer(folded):
            if not _is_denied(folded, match) and not _is_harmless(folded, match, word):
                level = _asked_at(folded, match, known_signs()[word])
                found[word] = min(level, found.get(word, level), key=_LEVELS.index)
    named = [Named(known_signs()[word], level) for word, level in found.items()]
    return tuple(sorted(named, key=lambda one: _LEVELS.index(one.level)))


def _is_denied(text: str, match: re.Match[str]) -> bool:
    return bool(_DENIED.search(text[: match.start()]) or _AFTER.search(text[match.end() :]))


def _is_harmless(text: str, match: re.Match[str], word: str) -> bool:
    """Whether the sentence around it says that it was something else."""
    sentence = _around(text, match, _ENDS)
    words = "|".join(map(re.escape, known_signs()[word].unless))
    return bool(words) and bool(re.search(rf"(?<!\w)({words})(e?s)?(?!\w)", sentence))


def _asked_at(text: str, match: re.Match[str], sign: KnownSign) -> Level:
    """How loudly: see Named. A few words alone speak of the animal."""
    if match.group() not in sign.may:
        return sign.level
    beside = text[: match.start()] + text[match.end() :]
    few = len(_around(text, match, f"{_ENDS},").split()) <= _FEW
    near = few or _BODY.search(beside)
    return max(sign.level, Level.LOOK_SOON if near else Level.NOTE, key=_LEVELS.index)


def _around(text: str, match: re.Match[str], ends: str) -> str:
    """The part of a text between two of the `ends` that a match stands in."""
    begin = max(text.rfind(end, 0, match.start()) for end in ends)
    after = [place for end in ends if (place := text.find(end, match.end())) >= 0]
    return text[begin + 1 : min(after, default=len(text))]


@cache
def _patterns() -> tuple[tuple[re.Pattern[str], str], ...]:
    return tuple(
        (re.compile(rf"(?<!\w)({'|'.join(map(re.escape, (s.word, *s.also)))})(?!\w)"), s.word)
        for s in known_signs().values()
    )
