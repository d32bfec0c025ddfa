"""How sure negative tests make it that one animal is free of an infection.

P(free | k negative) = (1-p)·Sp^k / [(1-p)·Sp^k + p·(1-Se)^k]: Bayes' rule for independent tests
(Martin, Shoukri & Thorburn 1992 Prev Vet Med 14:33-43). Repeat tests of one carrier are not
independent where shedding comes and goes, so the answer is an upper bound in practice.

A specificity below 1 only weighs how easily a free animal tests negative; it says nothing on what
a positive means. Where Se + Sp <= 1 a negative tells nothing, or even speaks for infection.
All shares are between 0 and 1.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec import Struct

from warmside.api import BadInput, Mark, Source
from warmside.plugins.quarantine.odds.shares import (
    MOST_TESTS,
    check_range,
    check_target,
    share,
    whole,
)

BAYES = Source("Martin, Shoukri & Thorburn 1992 Prev Vet Med 14:33-43", Mark.PUBLISHED)


class Negatives(Struct, frozen=True):
    """Negative results of one kind of test: how many, and how good the test is."""

    sensitivity: float
    specificity: float
    count: int


class Evidence(Struct, frozen=True):
    """Negative results whose sensitivity is only known as a range (both ends included)."""

    sensitivity_low: float
    sensitivity_high: float
    specificity: float
    count: int


class Range(Struct, frozen=True):
    """The lowest and the highest value that the published figures allow."""

    low: float
    high: float


def probability_free(prior: float, sensitivity: float, specificity: float, negatives: int) -> float:
    """P(free) after `negatives` negative results; `prior` is the prevalence before any test.

    Raises BadInput for shares outside 0 to 1, a sensitivity or specificity of 0, and for results
    that cannot happen (prior 1 with sensitivity 1).
    """
    return probability_free_after(prior, [Negatives(sensitivity, specificity, negatives)])


def probability_free_after(prior: float, tests: Sequence[Negatives]) -> float:
    """P(free) after negative results of several kinds of test, each taken as independent."""
    share("prior", prior)
    log_odds = _prior_log_odds(prior)
    for test in tests:
        log_odds += _log_weight(prior, test)
    return _from_log_odds(log_odds)


def negatives_needed(
    prior: float, sensitivity: float, specificity: float, target: float
) -> int | None:
    """The fewest negatives with which P(free) reaches `target` (0 < target < 1).

    None where no number of tests gets there: prior 1, or Se + Sp <= 1, or more than a million.
    With `prior = 1 - P(free so far)` it is the number still to come.
    """
    check_target(target)
    if probability_free(prior, sensitivity, specificity, 0) >= target:
        return 0
    if prior == 1:
        return None
    if sensitivity == 1:
        return 1
    weight = _log_weight(prior, Negatives(sensitivity, specificity, 1))
    wanted = math.log(target) - math.log1p(-target) - _prior_log_odds(prior)
    if weight <= 0 or wanted / weight > MOST_TESTS:
        return None
    return _exact(math.ceil(wanted / weight), prior, sensitivity, specificity, target)


def free_range(prior_low: float, prior_high: float, evidence: Sequence[Evidence]) -> Range:
    """P(free) over a range of prevalence and of sensitivities.

    It falls with the prevalence and rises with each sensitivity, so the corners are the bounds.
    """
    if share("prior", prior_low) > share("prior", prior_high):
        raise BadInput(f"prior range {prior_low:g} to {prior_high:g} is upside down; swap the two")
    for e in evidence:
        check_range("sensitivity", e.sensitivity_low, e.sensitivity_high)
    worst = [Negatives(e.sensitivity_low, e.specificity, e.count) for e in evidence]
    best = [Negatives(e.sensitivity_high, e.specificity, e.count) for e in evidence]
    return Range(probability_free_after(prior_high, worst), probability_free_after(prior_low, best))


def _prior_log_odds(prior: float) -> float:
    if prior == 0:
        return math.inf
    if prior == 1:
        return -math.inf
    return math.log1p(-prior) - math.log(prior)


def _log_weight(prior: float, test: Negatives) -> float:
    """What the negatives add to the log odds of being free: k·log(Sp / (1-Se))."""
    share("sensitivity", test.sensitivity, zero=False)
    share("specificity", test.specificity, zero=False)
    whole("negatives", test.count)
    if test.count == 0 or prior == 0:
        return 0.0
    if test.sensitivity < 1:
        return test.count * (math.log(test.specificity) - math.log1p(-test.sensitivity))
    if prior == 1:
        raise BadInput("prior 1 and sensitivity 1 cannot give a negative test; check both figures")
    return math.inf


def _from_log_odds(log_odds: float) -> float:
    if log_odds < 0:
        odds = math.exp(log_odds)
        return odds / (1 + odds)
    return 1 / (1 + math.exp(-log_odds))


def _exact(count: int, prior: float, se: float, sp: float, target: float) -> int:
    """The count, put right where rounding in the logarithms moved it by one."""
    while count > 0 and probability_free(prior, se, sp, count - 1) >= target:
        count -= 1
    while probability_free(prior, se, sp, count) < target:
        count += 1
    return count
