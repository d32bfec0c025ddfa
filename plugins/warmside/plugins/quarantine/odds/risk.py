"""The remaining risk of one animal for one agent, over the published range of every figure."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence

from msgspec import Struct

from warmside.plugins.quarantine.clock.state import QuarantineState
from warmside.plugins.quarantine.odds.freedom import Evidence, Range, free_range, negatives_needed
from warmside.plugins.quarantine.odds.methods import Performance, method, methods


class MoreNegatives(Struct, frozen=True):
    """How many more negatives reach a target: with the best and with the worst figures.

    None where no number of them gets there.
    """

    target: float
    fewest: int | None
    most: int | None


class Remaining(Struct, frozen=True):
    """P(free) as a range, the negatives it rests on, and how many more would do."""

    free: Range
    negatives: int
    more: tuple[MoreNegatives, ...]


def remaining_risk(
    prior: Range,
    evidence: Sequence[Evidence],
    next_test: Performance,
    targets: Sequence[float] = (0.95, 0.99),
) -> Remaining:
    """P(free) after the evidence, and how many more negatives of `next_test` reach each target.

    Rests on independent tests; `wording.INDEPENDENCE` goes wherever it is shown.
    """
    free = free_range(prior.low, prior.high, evidence)
    more = tuple(_more(free, next_test, target) for target in targets)
    return Remaining(free, sum(e.count for e in evidence), more)


def negatives_by_method(state: QuarantineState, agent: str) -> Mapping[str, int]:
    """The counted negatives of a quarantine that look for an agent, by method key.

    Samples without a known method are left out: nothing says how good they were.
    """
    known = {m.key for m in methods()}
    keys = [s.method for p in state.tests for s in p.counted if s.method in known]
    return Counter(key for key in keys if method(key).agent == agent)


def _more(free: Range, test: Performance, target: float) -> MoreNegatives:
    sp = test.specificity
    return MoreNegatives(
        target,
        negatives_needed(1 - free.high, test.sensitivity_high, sp, target),
        negatives_needed(1 - free.low, test.sensitivity_low, sp, target),
    )
