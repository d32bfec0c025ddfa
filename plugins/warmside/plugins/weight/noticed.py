"""The plugin's findings: signs of the checks, and weighings in doubt."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date

from warmside.api import Basis, Book, Display, Finding, Level
from warmside.plugins.weight.checks import WeightSign
from warmside.plugins.weight.judging import doubts_of, judged, rule_words
from warmside.plugins.weight.limits import CUSTOM, Limits
from warmside.plugins.weight.reading import limits_of, recent
from warmside.plugins.weight.series import Weighings, day_text, gram_text
from warmside.plugins.weight.stored import Held, held
from warmside.plugins.weight.typing_errors import Suspicion
from warmside.plugins.weight.weights import Weights

DOUBT = "weight.doubt"
EARLY = "weight.before-hatching"


def findings(book: Book, on: date) -> Iterator[Finding]:
    """What the weighings of the animals here say, those weighed in the last year."""
    limits = limits_of(book)
    known = recent(book, on)
    series = series_of(known)
    for animal_id, weights in known.items():
        for sign in signs_of(weights, held(book, weights.animal), limits):
            basis = Basis(rule_words(sign.sign, limits), sign.source, sign.events)
            yield Finding(sign.sign.value, sign.level, sign.words, basis, animal_id=animal_id)
        for doubt in doubts_of(weights, series):
            yield _doubt(weights, doubt, limits.display)
        if len(weights.early):
            yield _early(weights)


def signs_of(weights: Weights, reference: Held | None, limits: Limits) -> tuple[WeightSign, ...]:
    """The signs of one animal, against its reference if it has one."""
    curve = reference.curve if reference else None
    return judged(weights, curve, reference.source if reference else CUSTOM, limits)


def series_of(known: Mapping[int, Weights]) -> dict[str, Weighings]:
    """The sound weighings of animals by code."""
    return {w.animal.code: w.sound for w in known.values()}


def doubt_words(weights: Weights, doubt: Suspicion, display: Display) -> str:
    """The doubt, the day, and what to type."""
    event = doubt.events[-1]
    meant = gram_text(doubt.meant_g, display).replace(" ", "") if doubt.meant_g else "…"
    return (
        f"{day_text(weights.day_of(event))}: {doubt.words.said(display)}; correct it (warmside "
        f"correct {event} mass={meant}) or say that it is right "
        f"(warmside weight doubts --right {event})"
    )


def _doubt(weights: Weights, doubt: Suspicion, display: Display) -> Finding:
    basis = Basis("far from the weighings near it", CUSTOM, doubt.events)
    words = doubt_words(weights, doubt, display)
    return Finding(DOUBT, Level.LOOK_SOON, words, basis, animal_id=weights.animal.id)


def _early(weights: Weights) -> Finding:
    early, animal = weights.early, weights.animal
    born = animal.hatched.text if animal.hatched else ""
    words = (
        f"weighed on {day_text(early.days[-1])}, before it hatched ({born}); correct the day "
        f"(warmside correct {early.events[-1]} --at …) or the date of hatching"
    )
    basis = Basis("no animal is weighed before it hatches", events=early.events)
    return Finding(EARLY, Level.LOOK_SOON, words, basis, animal_id=animal.id)
