"""The plugin's findings: signs of the checks, and weighings in doubt."""

from __future__ import annotations

from collections.abc import Iterator

from warmside.api import About, Basis, Display, Finding, Level
from warmside.plugins.weight.course.judging import rule_words
from warmside.plugins.weight.course.limits import CUSTOM
from warmside.plugins.weight.course.series import day_text, gram_text
from warmside.plugins.weight.course.standing import Standing
from warmside.plugins.weight.course.weights import Weights
from warmside.plugins.weight.slips.suspicion import Suspicion

DOUBT = "weight.doubt"
EARLY = "weight.before-hatching"


def findings(it: Standing) -> Iterator[Finding]:
    """What the weighings of an animal say."""
    about = About(it.weights.animal.id)
    for sign in it.signs:
        basis = Basis(rule_words(sign.sign, it.limits), sign.source, sign.events)
        yield Finding(sign.sign.value, sign.level, sign.words, basis, about)
    for doubt in it.doubts:
        yield _doubt(it.weights, doubt, it.limits.display)
    if len(it.weights.early):
        yield _early(it.weights)


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
    return Finding(DOUBT, Level.LOOK_SOON, words, basis, About(weights.animal.id))


def _early(weights: Weights) -> Finding:
    early, animal = weights.early, weights.animal
    born = animal.hatched.text if animal.hatched else ""
    words = (
        f"weighed on {day_text(early.days[-1])}, before it hatched ({born}); correct the day "
        f"(warmside correct {early.events[-1]} --at …) or the date of hatching"
    )
    basis = Basis("no animal is weighed before it hatches", events=early.events)
    return Finding(EARLY, Level.LOOK_SOON, words, basis, About(animal.id))


def refusal(label: str, doubt: Suspicion, others: int, display: Display) -> str:
    """Why a new weighing is refused until it is confirmed."""
    more = f" (and {others} more in doubt)" if others else ""
    return f"{label}: {doubt.words.said(display)}{more}"
