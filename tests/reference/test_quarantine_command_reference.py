"""`quarantine odds` against worked examples that others printed."""

from __future__ import annotations

import pytest

from warmside.testing import Keeper


def odds(keeper: Keeper, *typed: str) -> dict:
    keeper.run("plugin", "enable", "quarantine", ok=False)
    return keeper.json("quarantine", "odds", *typed)


@pytest.mark.parametrize(
    ("sampled", "population", "expected", "within"),
    [("300", None, 0.943, 0.001), ("30", "80", 0.36, 0.005), ("30", "100", 0.28, 0.0051)],
)
def test_group_sensitivity(
    keeper: Keeper, sampled: str, population: str | None, expected: float, within: float
) -> None:
    """epiR help, rsu.sep.rs examples 1 and 2 (published)."""
    group = ("--population", population) if population else ()
    answer = odds(
        keeper, "--prevalence", "0.01", "--sensitivity", "0.95", "--sampled", sampled, *group
    )
    assert answer["population_sensitivity"] == pytest.approx(expected, abs=within)


@pytest.mark.parametrize(
    ("population", "prevalence", "sensitivity", "expected"),
    [("1000", "0.05", "0.90", 65), ("5000", "0.08", "0.995", 38), ("200", "0.20", "1.00", 15)],
)
def test_sample_size(
    keeper: Keeper, population: str, prevalence: str, sensitivity: str, expected: int
) -> None:
    """epiR help, rsu.sssep.rs examples 1 to 3 (published)."""
    answer = odds(
        keeper,
        *("--population", population, "--prevalence", prevalence),
        *("--sensitivity", sensitivity, "--target", "0.95"),
    )
    assert answer["sample_size"] == expected


@pytest.mark.parametrize(
    ("prior", "sensitivity", "negatives", "expected"),
    [
        ("0.10", "0.57", "1", 0.95440),
        ("0.10", "0.72", "2", 0.99136),
        ("0.10", "0.20", "3", 0.94617),
        ("0.38", "0.9", "1", 0.94225),
    ],
)
def test_one_animal(
    keeper: Keeper, prior: str, sensitivity: str, negatives: str, expected: float
) -> None:
    """Bayes' rule worked by hand; sensitivities of Graczyk 1996, Bogan, Cerveny 2012 and prior of
    Hoon-Hanks 2019 (published); the 0.9 is an assumption.
    """
    answer = odds(keeper, "--prior", prior, "--sensitivity", sensitivity, "--negatives", negatives)
    assert answer["probability_free"] == pytest.approx(expected, abs=1e-5)


def test_negatives_for_99_percent(keeper: Keeper) -> None:
    """Prior 0.10 and the lavage PCR of Cerveny 2012 (published): 11 negatives, by the formula."""
    answer = odds(keeper, "--prior", "0.1", "--sensitivity", "0.2", "--negatives", "3")
    assert (answer["negatives_for_95_percent"], answer["negatives_for_99_percent"]) == (4, 11)
