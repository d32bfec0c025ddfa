"""A reference built from pooled weighings."""

from __future__ import annotations

import numpy as np
import pytest

from warmside.api import BadInput
from warmside.plugins.weight.lms.fit import fit_lms
from warmside.plugins.weight.lms.lms import LmsCurve, mass_at

TRUTH = LmsCurve(
    tuple(float(d) for d in range(0, 1001, 50)),
    (0.0,) * 21,
    tuple(600 * np.exp(-3 * np.exp(-d / 250)) for d in range(0, 1001, 50)),
    (0.15,) * 21,
)


def _drawn(
    seed: int, animals: int, each: int, own: float = 0.0
) -> tuple[list[float], list[float], list[int]]:
    """Weighings drawn from TRUTH; `own` is the part of z that an animal keeps for life."""
    rng = np.random.default_rng(seed)
    ages, masses, codes = [], [], []
    for animal in range(animals):
        lasting = rng.standard_normal()
        for age in np.round(rng.uniform(0, 1000, each)):
            z = own * lasting + np.sqrt(1 - own**2) * rng.standard_normal()
            ages.append(float(age))
            masses.append(mass_at(z, TRUTH.at(age), tail=False))
            codes.append(animal)
    return ages, masses, codes


def test_too_few_weighings_say_how_many_are_missing() -> None:
    """Weighings, animals and ages are counted each."""
    with pytest.raises(BadInput, match="gather 160 weighings, 16 animals and 0 ages more"):
        fit_lms([float(i) for i in range(40)], [50.0] * 40, [i % 4 for i in range(40)])
    with pytest.raises(BadInput, match="0 weighings, 0 animals and 9 ages more"):
        fit_lms([5.0] * 300, [50.0] * 300, list(range(300)))


def test_impossible_weighings_are_refused() -> None:
    """Before hatching, or without mass."""
    ages, masses, codes = _drawn(1, 40, 8)
    with pytest.raises(BadInput, match="before hatching"):
        fit_lms([-3.0, *ages[1:]], masses, codes)
    with pytest.raises(BadInput, match="above zero"):
        fit_lms(ages, [0.0, *masses[1:]], codes)


def test_the_median_lies_in_its_range_and_the_lines_do_not_cross() -> None:
    """Low < line < high, and 5 < 50 < 95 at every age."""
    fit = fit_lms(*_drawn(2, 50, 8))
    assert (fit.weighings, fit.animals) == (400, 50)
    for line in fit.lines:
        assert all(a < b < c for a, b, c in zip(line.low_g, line.mass_g, line.high_g, strict=True))
    low, middle, high = (line.mass_g for line in fit.lines)
    assert all(a < b < c for a, b, c in zip(low, middle, high, strict=True))
    assert middle == pytest.approx(fit.curve.m_g)


def test_more_animals_make_it_surer() -> None:
    """Four times the animals halve the range of the median, about."""
    few, many = fit_lms(*_drawn(3, 60, 5)), fit_lms(*_drawn(3, 240, 5))
    width = [np.mean(np.log(np.divide(f.lines[1].high_g, f.lines[1].low_g))) for f in (few, many)]
    assert 1.4 < width[0] / width[1] < 2.8


def test_many_weighings_of_few_animals_do_not_count_as_many_animals() -> None:
    """When animals keep their own level, the range is wider than for as many strangers."""
    own, mixed = fit_lms(*_drawn(4, 25, 40, own=0.95)), fit_lms(*_drawn(4, 1000, 1))
    width = [np.mean(np.log(np.divide(f.lines[1].high_g, f.lines[1].low_g))) for f in (own, mixed)]
    assert width[0] > 1.4 * width[1]


def test_the_order_of_the_weighings_does_not_matter() -> None:
    """Shuffled, the same curve."""
    ages, masses, codes = _drawn(6, 40, 8)
    order = np.random.default_rng(1).permutation(len(ages))
    again = fit_lms(*([column[i] for i in order] for column in (ages, masses, codes)))
    assert again.curve.m_g == pytest.approx(fit_lms(ages, masses, codes).curve.m_g, rel=1e-6)


def test_the_range_holds_the_truth_when_animals_keep_their_level() -> None:
    """Over ten drawings of 40 animals weighed 10 times, the truth is inside at most ages."""
    inside = []
    for seed in range(10):
        fit = fit_lms(*_drawn(200 + seed, 40, 10, own=0.9))
        line = fit.lines[1]
        true = [TRUTH.at(age).m_g for age in fit.curve.ages_days]
        rows = zip(line.low_g, true, line.high_g, strict=True)
        inside.append(np.mean([low < m < high for low, m, high in rows]))
    assert np.mean(inside) > 0.85
