"""The signs that the words of a note name, and how loudly each is to be asked about."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Sequence
from functools import cache, lru_cache

from msgspec import Struct

from warmside.api import Level
from warmside.plugins.signs.seen.known_signs import KnownSign, known_signs


class Named(Struct, frozen=True):
    """A sign that a note names, and how loudly it is to be asked about.

    At the sign's own level where the words hardly mean anything else. Words that may are only asked
    about, as a note, unless they stand alone or beside a part of the body: then soon to be looked
    at. Where the sentence speaks of people, of pictures or of things in general, it is a question.
    """

    sign: KnownSign
    level: Level


_LEVELS = list(Level)
_BODY = re.compile(
    r"\b(back|belly|body|chin|claws?|ears?|eyes?|face|foot|feet|gums?|head|hips?|jaw|legs?|limbs?|"
    r"mouth|muscles?|neck|nose|nostrils?|ribs?|scales?|shell|skin|snout|spine|tail|throat|toes?|"
    r"tongue|vent)\b"
)
_NEAR = 8  # words before and behind within which a part of the body belongs to it (our rule)
_OF = re.compile(r"^ of((?: (?!on\b|in\b|at\b|from\b|under\b|by\b)\w+){1,3})")
_SMALL = re.compile(
    r"\b(a|again|all|and|bit|evening|he|is|it|its|itself|little|looks?|morning|night|now|she|"
    r"slightly|some|still|the|this|today|very|was|yesterday)\b|\W"
)
_ELSEWHERE = re.compile(
    r"\b(bit|burned|burnt|cut|from|of|on) my (own )?(arm|finger|foot|hand|thumb)s?\b"
    r"|\bmy (daughter|husband|son|wife)\b"
    r"|\bin (general|the (photo|picture|video|book|forum|soil|kitchen))\b"
    r"|\b(talk (about|at|of)|says the book|(bark|grain|wood) mites|cricket tub)\b"
)
_DENIED = re.compile(r"\b(no|not|never|without|stopped|gone|nothing|free of)\b[^.;,!?]{0,25}$")
_WORD = re.compile(r"\w+")
_ENDS = ".;!?"
_AFTER = re.compile(
    r"^[^.;!?]{0,12}\b(gone|(is|are|was|were|now) over|healed|stopped)\b"
    r"|^\?+ no\b|^[^.;!?]{0,40}\b(nothing|none) of (it|that|the sort|this)\b"
)


@lru_cache(4096)  # keepers write the same again and again
def signs_in(text: str) -> tuple[Named, ...]:
    """The signs that a note names and does not deny, the most urgent first."""
    folded = text.casefold()
    found: dict[str, Level] = {}
    for match, word in _longest(folded):
        if not _is_denied(folded, match) and not _is_harmless(folded, match, word):
            level = _asked_at(folded, match, known_signs()[word])
            found[word] = min(level, found.get(word, level), key=_LEVELS.index)
    named = [Named(known_signs()[word], level) for word, level in found.items()]
    return tuple(sorted(named, key=lambda one: _LEVELS.index(one.level)))


def _longest(text: str) -> list[tuple[re.Match[str], str]]:
    """Where words of signs stand, but those within longer words of another: a swollen eye is one
    sign, not an eye and a swelling.
    """
    at = [(m, word) for pattern, word in _worth_a_look(text) for m in pattern.finditer(text)]
    return [(m, word) for m, word in at if not any(_is_within(m, other) for other, _ in at)]


def _is_within(inner: re.Match[str], outer: re.Match[str]) -> bool:
    (begin, end), (first, last) = inner.span(), outer.span()
    return first <= begin and end <= last and end - begin < last - first


def _is_denied(text: str, match: re.Match[str]) -> bool:
    return bool(_DENIED.search(text[: match.start()]) or _AFTER.search(text[match.end() :]))


def _is_harmless(text: str, match: re.Match[str], word: str) -> bool:
    """Whether the sentence around it says that it was something else."""
    sentence = _around(text, match, _ENDS)
    words = "|".join(map(re.escape, known_signs()[word].unless))
    return bool(words) and bool(re.search(rf"(?<!\w)({words})(e?s)?(?!\w)", sentence))


def _asked_at(text: str, match: re.Match[str], sign: KnownSign) -> Level:
    """How loudly: see Named."""
    if _ELSEWHERE.search(_around(text, match, _ENDS)):
        return Level.NOTE
    if match.group() not in sign.may:
        return sign.level
    part = _around(text, match, f"{_ENDS},")
    alone = not _SMALL.sub("", part.replace(match.group(), ""))
    near = alone or _is_of_the_body(_around(text, match, _ENDS), match.group())
    return max(sign.level, Level.LOOK_SOON if near else Level.NOTE, key=_LEVELS.index)


def _is_of_the_body(sentence: str, word: str) -> bool:
    """Whether a part of the body is named beside the word; a lump of soil on its back is not."""
    before, _, after = sentence.partition(word)
    of = _OF.match(after)
    if of and not _BODY.search(of.group(1)):
        return False
    return bool(_BODY.search(" ".join((*before.split()[-_NEAR:], *after.split()[:_NEAR]))))


def _around(text: str, match: re.Match[str], ends: str) -> str:
    """The part of a text between two of the `ends` that a match stands in."""
    begin = max(text.rfind(end, 0, match.start()) for end in ends)
    after = [place for end in ends if (place := text.find(end, match.end())) >= 0]
    return text[begin + 1 : min(after, default=len(text))]


def _worth_a_look(text: str) -> Sequence[tuple[re.Pattern[str], str]]:
    """The patterns of the signs of which a first word stands in the text.

    Of thousands of notes few have one, and looking for each sign in each takes the round a second.
    """
    known = _by_first_word()
    firsts = known.keys() & _WORD.findall(text)
    near = {word for first in firsts for word in known[first]}
    return [(_patterns()[word], word) for word in known_signs() if word in near] if near else ()


@cache
def _by_first_word() -> dict[str, set[str]]:
    """The signs by the first word of each of their words and phrases."""
    found: dict[str, set[str]] = defaultdict(set)
    for sign in known_signs().values():
        for words in (sign.word, *sign.also):
            found[_WORD.findall(words)[0]].add(sign.word)
    return found


@cache
def _patterns() -> dict[str, re.Pattern[str]]:
    return {s.word: _pattern((s.word, *s.also)) for s in known_signs().values()}


def _pattern(words: Iterable[str]) -> re.Pattern[str]:
    """Any of the words, the longest that stands there."""
    longest_first = sorted(words, key=len, reverse=True)
    return re.compile(rf"(?<!\w)({'|'.join(map(re.escape, longest_first))})(?!\w)")
