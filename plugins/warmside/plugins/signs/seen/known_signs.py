"""The list of signs: words, synonyms, how soon, what not to do."""

from __future__ import annotations

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
