"""Group figures of a test that also calls some free animals positive, counted exactly.

A group counts as infected from `cut` positives on. Of a known group the sample is drawn without
putting back (hypergeometric), of an unknown or large one with it (binomial); a sampled infected
animal tests positive with the sensitivity, a free one with 1 - specificity: Cameron & Baldock 1998
Prev Vet Med 34:1-17. All shares are between 0 and 1.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator

from msgspec import Struct

from warmside.api import BadInput, Mark, Source
from warmside.plugins.quarantine.odds.groups import infected_animals
from warmside.plugins.quarantine.odds.shares import check_target, share, whole

EXACT = Source("Cameron & Baldock 1998 Prev Vet Med 34:1-17", Mark.PUBLISHED)
MOST_SAMPLED = 5000  # beyond that the exact count takes minutes


class GroupTest(Struct, frozen=True):
    """A test and the group it is for: `prevalence` is the least share infected worth finding.

    `population` None stands for an unknown or large group.
    """

    sensitivity: float
    specificity: float
    prevalence: float
    population: int | None = None

    def __post_init__(self) -> None:
        """Raise BadInput for shares and numbers that cannot be."""
        share("sensitivity", self.sensitivity, zero=False)
        share("specificity", self.specificity, zero=False)
        if share("prevalence", self.prevalence) == 0:
            raise BadInput("prevalence is above 0, not 0; give the least share worth finding")
        if self.population is not None:
            whole("population", self.population, least=1)


class Cut(Struct, frozen=True):
    """What calling a group infected from so many positives on does, for one size of sample.

    `found` is the chance that an infected group reaches it (group sensitivity), `passed` that a
    free one stays below (group specificity).
    """

    sampled: int
    positives: int
    found: float
    passed: float


def cut_at(test: GroupTest, sampled: int, positives: int) -> Cut:
    """The figures of one cut-point; raises BadInput for more sampled than there are."""
    _check_sampled(test, sampled)
    if not 1 <= whole("cut-point", positives, least=1) <= sampled:
        raise BadInput(f"the cut-point is from 1 to the {sampled} sampled, not {positives}")
    return _cut(test, sampled, positives)


def likelihoods(test: GroupTest, sampled: int, positives: int) -> tuple[float, float]:
    """The chance of just so many positives in an infected group, and in a free one."""
    _check_sampled(test, sampled)
    fewer, no_more = (_below(test, sampled, p) for p in (positives, positives + 1))
    less, not_more = (_passed(test, sampled, p) for p in (positives, positives + 1))
    return max(0.0, no_more - fewer), max(0.0, not_more - less)


def cuts(test: GroupTest, sampled: int, sure: float) -> Iterator[Cut]:
    """The cut-points from 1 positive to the first that a free group stays below so surely."""
    check_target(sure)
    _check_sampled(test, sampled)
    for positives in range(1, sampled + 1):
        cut = _cut(test, sampled, positives)
        yield cut
        if cut.passed >= sure:
            return


def sample_and_cut(test: GroupTest, found: float, passed: float) -> Cut | None:
    """The fewest animals, with a cut-point, so that both chances of `Cut` are reached.

    None where the whole group, or MOST_SAMPLED animals, are not enough. For one cut-point more
    animals find more and pass less, and a higher one needs more animals: the first cut-point whose
    largest sample finds enough has the smallest.
    """
    check_target(found)
    check_target(passed)
    most = min(test.population or MOST_SAMPLED, MOST_SAMPLED)
    for positives in range(1, most + 1):
        largest = _largest_passed(positives, test.specificity, passed, most)
        if largest >= positives and _found(test, largest, positives) >= found:
            sizes = range(positives, largest + 1)
            first = bisect_left(sizes, True, key=lambda n: _found(test, n, positives) >= found)
            return cut_at(test, sizes[first], positives)
        if largest == most:
            return None
    return None


def _largest_passed(positives: int, specificity: float, target: float, most: int) -> int:
    """The most animals of a free group of which fewer are positive, as surely as the target."""
    from scipy.stats import binom  # late: more than a second

    def lost(sampled: int) -> bool:
        return float(binom.cdf(positives - 1, sampled, 1 - specificity)) < target

    return bisect_left(range(1, most + 1), True, key=lost)


def _check_sampled(test: GroupTest, sampled: int) -> None:
    if whole("sampled", sampled, least=1) > MOST_SAMPLED:
        raise BadInput(f"with a specificity below 1 at most {MOST_SAMPLED} can be counted")
    if test.population is not None and sampled > test.population:
        raise BadInput(f"sampled is {sampled}, more than the {test.population} in the group")


def _cut(test: GroupTest, sampled: int, positives: int) -> Cut:
    found, passed = _found(test, sampled, positives), _passed(test, sampled, positives)
    return Cut(sampled, positives, found, passed)


def _found(test: GroupTest, sampled: int, positives: int) -> float:
    return 1 - _below(test, sampled, positives)


def _passed(test: GroupTest, sampled: int, positives: int) -> float:
    """The chance of fewer positives in a free group."""
    from scipy.stats import binom

    return float(binom.cdf(positives - 1, sampled, 1 - test.specificity))


def _below(test: GroupTest, sampled: int, positives: int) -> float:
    """The chance of fewer positives in an infected group."""
    from numpy import arange
    from scipy.stats import binom, hypergeom

    wrong = 1 - test.specificity
    if test.population is None:
        positive = test.prevalence * test.sensitivity + (1 - test.prevalence) * wrong
        return float(binom.cdf(positives - 1, sampled, positive))
    infected = infected_animals(test.population, test.prevalence)
    inside = arange(max(0, sampled - test.population + infected), min(infected, sampled) + 1)
    drawn = hypergeom.pmf(inside, test.population, infected, sampled)
    true = arange(positives)
    right = binom.pmf(true, inside[:, None], test.sensitivity)
    rest = binom.cdf(positives - 1 - true, sampled - inside[:, None], wrong)
    return min(1.0, float(drawn @ (right * rest).sum(axis=1)))
