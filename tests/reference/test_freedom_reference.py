"""Freedom from infection, group sensitivity and intervals held against published figures."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from warmside.core.figures.wilson import wilson_interval
from warmside.plugins.quarantine.odds.freedom import (
    Negatives,
    negatives_needed,
    probability_free,
    probability_free_after,
)
from warmside.plugins.quarantine.odds.groups import population_sensitivity, sample_size
from warmside.plugins.quarantine.odds.methods import performance
from warmside.plugins.quarantine.odds.prevalence import survey
from warmside.plugins.quarantine.protocol.mites import cycle_of_mites
from warmside.plugins.quarantine.protocol.parsing import shipped_protocols


def test_group_sensitivity_of_the_handbook_example():
    """epiR help, rsu.sep.rs example 1: n 300, p 0.01, Se 0.95 gives 0.943 (published)."""
    assert population_sensitivity(300, 0.01, 0.95) == pytest.approx(0.943, abs=0.001)


@pytest.mark.parametrize(("population", "expected"), [(80, 0.35625), (100, 0.2850)])
def test_group_sensitivity_of_a_small_group(population, expected):
    """epiR help, rsu.sep.rs example 2: 0.36 at N 80 down to 0.28 at N 100 (published)."""
    assert population_sensitivity(30, 0.01, 0.95, population) == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize(
    ("population", "prevalence", "sensitivity", "expected"),
    [(1000, 0.05, 0.90, 65), (200, 0.20, 1.00, 15), (5000, 0.08, 0.995, 38)],
)
def test_sample_sizes_of_the_handbook(population, prevalence, sensitivity, expected):
    """epiR help, rsu.sssep.rs examples 1 to 3, SeP 0.95 (published)."""
    assert sample_size(0.95, prevalence, sensitivity, population) == expected


@pytest.mark.parametrize(("prevalence", "expected"), [(0.05, 59), (0.01, 299)])
def test_all_negative_with_a_perfect_test(prevalence, expected):
    """Cannon & Roe 1982: 59 and 299 for 5 % and 1 % at 95 % (from memory, and computed)."""
    assert sample_size(0.95, prevalence, 1.0) == expected


def test_two_tests_side_by_side():
    """epiR help, parallel tests: Se 0.90, 0.95 and Sp 0.80, 0.85 are one of 0.995, 0.680."""
    pair = probability_free_after(0.2, [Negatives(0.90, 0.80, 1), Negatives(0.95, 0.85, 1)])
    assert pair == pytest.approx(probability_free(0.2, 0.995, 0.680, 1), abs=1e-12)


@pytest.mark.parametrize(
    ("prior", "sensitivity", "negatives", "expected"),
    [
        (0.10, 0.25, 1, 0.92308),
        (0.10, 0.25, 2, 0.94118),
        (0.10, 0.25, 3, 0.95522),
        (0.10, 0.57, 1, 0.95440),
        (0.10, 0.57, 2, 0.97987),
        (0.10, 0.57, 3, 0.99124),
        (0.10, 0.72, 1, 0.96983),
        (0.10, 0.72, 2, 0.99136),
        (0.10, 0.72, 3, 0.99757),
        (0.10, 0.20, 1, 0.91837),
        (0.10, 0.20, 2, 0.93361),
        (0.10, 0.20, 3, 0.94617),
        (0.38, 0.90, 1, 0.94225),
        (0.38, 0.90, 2, 0.99391),
    ],
)
def test_one_animal_after_negatives(prior, sensitivity, negatives, expected):
    """Bayes' rule, Martin et al. 1992; Se of Graczyk 1996, Bogan, Cerveny 2012 (published);
    0.90 is assumed. The expected values were computed apart from this program."""
    assert probability_free(prior, sensitivity, 1.0, negatives) == pytest.approx(expected, abs=1e-5)


def test_a_weak_test_needs_eleven_negatives_for_99_percent():
    """Se 0.20, conventional PCR of Cerveny 2012 (published): first at or above 0.99 at k = 11."""
    assert negatives_needed(0.10, 0.20, 1.0, 0.99) == 11


@pytest.mark.parametrize(
    ("cases", "sampled", "low", "high"),
    [
        (8, 79, 5.2, 18.7),
        (1, 116, 0.0, 4.7),
        (0, 4, 0, 49),
        (0, 12, 0, 24.2),
        (0, 14, 0, 21.5),
        (156, 414, 33.1, 42.4),
    ],
)
def test_intervals_printed_in_a_survey(cases, sampled, low, high):
    """Hoon-Hanks et al. 2019 Front Vet Sci 6:338, abstract (published); 156 is inferred."""
    found_low, found_high = wilson_interval(cases, sampled)
    assert found_high * 100 == pytest.approx(high, abs=0.1)
    if cases != 1:  # the abstract prints only `<0.01` there, another method's lower end
        assert found_low * 100 == pytest.approx(low, abs=0.1)


@given(st.integers(2, 300), st.data())
@settings(max_examples=60)
def test_small_groups_lie_just_below_the_hypergeometric(population, data):
    """MacDiarmid's form against scipy.stats.hypergeom: with Se 1 it never promises more."""
    sampled = data.draw(st.integers(1, population))
    infected = data.draw(st.integers(1, population))
    exact = 1 - stats.hypergeom(population, infected, sampled).pmf(0)
    ours = population_sensitivity(sampled, infected / population, 1.0, population)
    assert ours <= exact + 1e-9
    if infected == 1:
        assert ours == pytest.approx(exact)


@given(st.integers(1, 99), st.integers(1, 99), st.integers(1, 100), st.integers(0, 12))
def test_probability_free_agrees_with_exact_fractions(p, se, sp, k):
    """The printed formula in exact rational arithmetic (Martin et al. 1992)."""
    prior, sens, spec = Fraction(p, 100), Fraction(se, 100), Fraction(sp, 100)
    free, carrier = (1 - prior) * spec**k, prior * (1 - sens) ** k
    expected = float(free / (free + carrier))
    assert probability_free(p / 100, se / 100, sp / 100, k) == pytest.approx(expected, rel=1e-9)


def test_shipped_figures_are_the_published_ones():
    """Bogan 2022 and Graczyk 1996 for cloacal samples, Hoon-Hanks 2019, Camin 1953 (published)."""
    swab = performance("cloacal-swab-qpcr")
    assert (swab.sensitivity_low, swab.sensitivity_high, swab.specificity) == (0.4468, 0.8437, 1.0)
    smear = performance("cloacal-acid-fast-smear")
    assert (smear.sensitivity_low, smear.sensitivity_high) == (0.032, 0.651)
    pythons = survey("serpentovirus-pythons")
    assert (pythons.value, pythons.low, pythons.high) == (0.38, 0.331, 0.424)
    cycle, _ = cycle_of_mites()
    assert (cycle.from_day, cycle.to_day) == (13, 40)


@pytest.mark.parametrize(
    ("key", "found", "infected"),
    [
        ("cloacal-acid-fast-smear", 2, 8),
        ("gastric-biopsy-histology", 5, 7),
        ("cloacal-swab-qpcr", 16, 24),
    ],
)
def test_intervals_of_small_studies_are_exact_ones(key, found, infected):
    """Clopper & Pearson 1934 by scipy: worked out for Graczyk 1996 (2 of 8 by cloaca) and for
    Cerveny 2012 (5 of 7 fits the printed 71.4 %); printed by Bogan 2022 (16 of 24).
    """
    exact = stats.binomtest(found, infected).proportion_ci(0.95, method="exact")
    ours = performance(key)
    assert (ours.sensitivity_low, ours.sensitivity_high) == pytest.approx(tuple(exact), abs=1e-3)


@pytest.mark.parametrize(
    ("key", "low", "high"),
    [
        ("cryptosporidium-serpentis-leopard-geckos", 0.0088, 0.0338),
        ("cryptosporidium-serpentis-snakes", 0.0113, 0.0341),
        ("reptarenavirus-boas-pcr", 0.190, 0.3155),
    ],
)
def test_intervals_of_surveys_are_wilsons(key, low, high):
    """Richter 2011, J Parasitol 2021 107:163, Simard 2020: intervals worked out apart from here."""
    found = survey(key)
    assert (found.low, found.high) == pytest.approx((low, high), abs=5e-4)


def test_shipped_durations_are_the_published_ones():
    """AZA: 30 days at least; veterinary review: 90; Origgi 2019: 6 months (published).
    Three faecal examinations two weeks apart: common practice, no source."""
    days = {name: p.days for name, p in shipped_protocols().items()}
    assert days == {"general": 90, "short": 30, "long": 180}
    faecal = shipped_protocols()["general"].test("faecal")
    assert (faecal.negatives, faecal.spacing_days) == (3, 14)
