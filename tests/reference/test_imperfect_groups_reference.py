"""Group figures with an imperfect test, held against what others printed.

The formula is that of Cameron & Baldock 1998 Prev Vet Med 34:1-17; two R packages that implement it
print worked values: epiR (help pages, read 2026) and RSurveillance (its own test file, read 2026).
"""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from warmside.plugins.quarantine.odds.discount import discounted, found_needed, free_after
from warmside.plugins.quarantine.odds.groups import sample_size
from warmside.plugins.quarantine.odds.imperfect import GroupTest, cut_at, sample_and_cut
from warmside.testing import Keeper

HERD = GroupTest(0.90, 0.98, 0.10, 150)
UNKNOWN = GroupTest(0.90, 0.98, 0.10)


def test_thirty_of_a_herd_of_150() -> None:
    """epiR help, rsu.sep.rsfreecalc example 1: 0.87; RSurveillance, sep.freecalc: 0.870566."""
    assert cut_at(HERD, 30, 2).found == pytest.approx(0.870566, abs=1e-6)


def test_thirty_of_a_herd_of_unknown_size() -> None:
    """epiR help, rsu.sep.rsfreecalc example 2: 0.85."""
    assert cut_at(UNKNOWN, 30, 2).found == pytest.approx(0.85, abs=0.005)


def test_samples_of_many_sizes_from_a_large_group() -> None:
    """RSurveillance, sep.binom.imperfect: 2 or more positive, Se 0.95, Sp 0.98, 10 % infected."""
    printed = (0.1012041, 0.3144826, 0.5181777, 0.6775625, 0.7911787, 0.8678935, 0.9178840)
    test = GroupTest(0.95, 0.98, 0.10)
    for sampled, expected in zip(range(5, 40, 5), printed, strict=True):
        assert cut_at(test, sampled, 2).found == pytest.approx(expected, abs=1e-6)


def test_how_surely_a_free_group_passes() -> None:
    """RSurveillance, sph.binom: fewer than 2 positive, Sp 0.98."""
    printed = {5: 0.99615761, 15: 0.96466169, 30: 0.87945431, 100: 0.40327171}
    for sampled, expected in printed.items():
        assert cut_at(UNKNOWN, sampled, 2).passed == pytest.approx(expected, abs=1e-7)


def test_a_small_herd() -> None:
    """RSurveillance, n.freecalc: 10 of 65, 5 % infected, Se 0.95, Sp 0.99, 1 or more positive."""
    cut = cut_at(GroupTest(0.95, 0.99, 0.05, 65), 10, 1)
    assert (cut.found, cut.passed) == pytest.approx((0.4411522, 0.9043821), abs=1e-7)


def test_herds_to_sample_of_5000() -> None:
    """epiR help, rsu.sssep.rsfreecalc: 194 herds.

    The help calls 7 the cut-point: its code stores the most positives that still pass, so that the
    group counts as infected from 8 on. From 7 on only 0.904 of the free ones would pass.
    """
    test = GroupTest(0.95, 0.98, 0.05, 5000)
    cut = sample_and_cut(test, 0.95, 0.95)
    assert cut is not None
    assert (cut.sampled, cut.positives) == (194, 8)
    assert cut_at(test, 194, 7).passed == pytest.approx(0.9036, abs=1e-4)


@settings(max_examples=20)
@given(st.floats(0.5, 1), st.floats(0.05, 0.3), st.sampled_from([None, 40]))
def test_the_first_sample_that_is_enough_is_found(se: float, prevalence: float, size: int) -> None:
    """Every smaller sample, with every cut-point, misses one of the two chances."""
    test = GroupTest(se, 0.97, prevalence, size)
    best = sample_and_cut(test, 0.8, 0.8)
    most = 40 if best is None else best.sampled - 1
    for sampled in range(max(1, most - 3), most + 1):
        tried = (cut_at(test, sampled, c) for c in range(1, min(sampled, 8) + 1))
        assert size is None or not any(c.found >= 0.8 and c.passed >= 0.8 for c in tried)


def test_the_past_counts_for_less_by_the_chance_of_introduction() -> None:
    """RSurveillance, disc.prior, pfree.1 and pfree.calc: chance of introduction 0.01."""
    assert discounted(0.95, 0.01) == pytest.approx(0.9405)
    printed = {0.44: 0.6364104, 0.51: 0.6667116, 0.6: 0.7101865}
    for found, expected in printed.items():
        assert free_after(discounted(0.5, 0.01), found) == pytest.approx(expected, abs=1e-7)
    free = 0.5
    for expected in (0.6203008, 0.7261937, 0.8099976, 0.8709093, 0.9124970):
        free = free_after(discounted(free, 0.01), 0.4)
        assert free == pytest.approx(expected, abs=1e-7)


def test_the_sensitivity_that_a_target_asks_for() -> None:
    """RSurveillance, sep.pfree: prior 0.5."""
    printed = {0.8: 0.7500000, 0.9: 0.8888889, 0.95: 0.9473684, 0.99: 0.9898990}
    for target, expected in printed.items():
        assert found_needed(0.5, target) == pytest.approx(expected, abs=1e-7)
    sizes = [sample_size(found_needed(0.5, t) or 0, 0.01, 0.8, 1000) for t in (0.9, 0.95, 0.98)]
    assert sizes == [247, 319, 403]  # RSurveillance, n.pfree: it leaves the discount out of these


def odds(keeper: Keeper, *typed: str) -> dict:
    keeper.run("plugin", "enable", "quarantine", ok=False)
    return keeper.json("quarantine", "odds", "--prevalence", "0.1", "--sensitivity", "0.9", *typed)


def test_the_command_gives_the_published_figure(keeper: Keeper) -> None:
    """The rows above, as a keeper asks; without a specificity 0.949 (MacDiarmid 1988)."""
    herd = ("--population", "150", "--sampled", "30")
    told = odds(keeper, *herd, "--specificity", "0.98", "--cut-point", "2")
    assert told["population_sensitivity"] == pytest.approx(0.870566, abs=1e-6)
    assert [row["positives"] for row in told["cuts"]] == [1, 2, 3]
    assert odds(keeper, *herd)["population_sensitivity"] == pytest.approx(0.9490, abs=1e-4)


def test_the_command_discounts_what_was_known_before(keeper: Keeper) -> None:
    """The size for prior 0.5 with an introduction of 1 %, Martin 2007, worked by hand."""
    known = ("--free-before", "0.5", "--introduced", "0.01", "--population", "1000")
    told = odds(keeper, *known, "--target", "0.95")
    needed = (1 - 0.495 / 0.95) / (1 - 0.495)
    assert told["sample_size"] == sample_size(needed, 0.1, 0.9, 1000)
