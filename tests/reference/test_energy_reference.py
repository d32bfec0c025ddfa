"""The energy equations against published figures and measured animals."""

from __future__ import annotations

import math
from datetime import date, timedelta

import pytest

from warmside.core.values.basis import Basis, Estimate
from warmside.core.values.quantities import Display
from warmside.core.values.units import Unit
from warmside.plugins.feeding.care.rules import rules_with
from warmside.plugins.feeding.care.species import species_rows
from warmside.plugins.feeding.condition.balance import balance
from warmside.plugins.feeding.condition.digestion import SNAKE_DIGESTION
from warmside.plugins.feeding.condition.loss import loss
from warmside.plugins.feeding.condition.refusals import Case, Level, judge
from warmside.plugins.feeding.energy.clinical import FORMS
from warmside.plugins.feeding.energy.rates import (
    KJ_PER_KCAL,
    field_kj_per_day,
    oxygen_ml_per_hour,
    resting_kj_per_day,
    standard_kj_per_day,
)
from warmside.plugins.feeding.meals.records import Offer, Weighing


@pytest.mark.parametrize(
    ("mass_g", "temperature_c", "ml_per_hour", "kj_per_day", "tolerance"),
    [
        (100, 25, 4.6126, None, 1e-4),
        (100, 30, 7.1440, 3.4463, 1e-4),
        (500, 25, 16.7155, 8.0636, 1e-4),
        (500, 30, 25.8892, 12.4890, 1e-4),
        (1500, 25, 40.2547, 19.4189, 1e-4),
        (1500, 30, 62.3471, 30.0762, 1e-4),
        (5, 30, 0.6503, 0.3137, 1e-3),
    ],
)
def test_standard_rate(
    mass_g: float,
    temperature_c: float,
    ml_per_hour: float,
    kj_per_day: float | None,
    tolerance: float,
) -> None:
    """Andrews & Pough 1985, Eq. 2 (published; read in two independent scripts), worked by hand.

    Oxygen at 20.1 J/ml.
    """
    oxygen = oxygen_ml_per_hour(mass_g, temperature_c)
    assert oxygen == pytest.approx(ml_per_hour, rel=tolerance)
    if kj_per_day is not None:
        assert standard_kj_per_day(mass_g, temperature_c) == pytest.approx(
            kj_per_day, rel=tolerance
        )


def test_standard_rate_in_milliwatts() -> None:
    """39.888 mW for 100 g at 30 °C; 1 kJ/day = 0.0115741 W (arithmetic)."""
    assert standard_kj_per_day(100, 30) * 11.5741 == pytest.approx(39.888, rel=1e-4)


def test_resting_rate() -> None:
    """Andrews & Pough 1985, Eq. 2 with s = 1 (published): 500 g at 30 °C."""
    assert oxygen_ml_per_hour(500, 30, resting=True) == pytest.approx(35.7371, rel=1e-4)
    assert resting_kj_per_day(500, 30) == pytest.approx(17.2396, rel=1e-4)


@pytest.mark.parametrize("mass_g", [0.1, 5, 110, 1500, 67_800])
@pytest.mark.parametrize("temperature_c", [0, 25, 45])
def test_resting_is_1_38_times_standard_not_ten_times(mass_g: float, temperature_c: float) -> None:
    """The state term is 10^(0.14 s) (published); one public library writes 10^s."""
    ratio = resting_kj_per_day(mass_g, temperature_c) / standard_kj_per_day(mass_g, temperature_c)
    assert ratio == pytest.approx(1.38038, rel=1e-5)


def test_the_factor_in_front_is_0_013_not_0_13() -> None:
    """At 1 g and 0 °C the rate is the factor itself (published); one public script has 0.13."""
    assert oxygen_ml_per_hour(1, 0) == pytest.approx(0.013, rel=1e-12)


def test_ten_degrees_more_are_2_4_times_the_rate() -> None:
    """10^0.38 = 2.399 as Eq. 2 implies; boids 2.61 (Chappell & Ellis 1987), Python regius 2.2."""
    q10 = standard_kj_per_day(800, 30) / standard_kj_per_day(800, 20)
    assert q10 == pytest.approx(2.399, rel=1e-3)
    assert 2.0 < q10 < 3.0


def test_mass_exponent_is_0_80() -> None:
    """Among-species exponent 0.80: Beck & Lowe 1994 quoting Andrews & Pough (published)."""
    slope = math.log10(standard_kj_per_day(1000, 30) / standard_kj_per_day(100, 30))
    assert slope == pytest.approx(0.80, abs=1e-9)


@pytest.mark.parametrize(
    ("mass_g", "kj_per_day"), [(100, 11.7559), (500, 49.1632), (1500, 130.557)]
)
def test_field_rate(mass_g: float, kj_per_day: float) -> None:
    """Nagy 2005, J Exp Biol 208:1621-1625 (published): 0.196 M^0.889 for reptiles."""
    assert field_kj_per_day(mass_g) == pytest.approx(kj_per_day, rel=1e-4)


@pytest.mark.parametrize(
    ("form", "rows"),
    [
        (0, {100: 5.4344, 500: 18.7654, 1500: 43.7261}),
        (2, {100: 1.7783, 500: 5.9460, 1500: 13.5540}),
    ],
)
def test_clinical_forms(form: int, rows: dict[float, float]) -> None:
    """32 kg^0.77 (veterinary handbooks, from memory); 10 kg^0.75 (Kaplan 2000, published)."""
    for mass_g, kcal in rows.items():
        assert FORMS[form].kcal_per_day(mass_g) == pytest.approx(kcal, rel=1e-4)


def test_the_clinical_form_is_no_basal_rate() -> None:
    """32 kcal at 1 kg = 133.9 kJ: 6.2 × standard, 4.5 × resting at 30 °C, above the field rate."""
    form = FORMS[0]
    assert form.kj_per_day(1000) == pytest.approx(133.9, rel=1e-3)
    assert form.times_standard(1000) == pytest.approx(6.2, rel=0.01)
    assert form.kj_per_day(1000) / resting_kj_per_day(1000, 30) == pytest.approx(4.5, rel=0.01)
    assert form.kj_per_day(1000) > field_kj_per_day(1000) == pytest.approx(91.0, rel=1e-3)
    assert FORMS[2].kj_per_day(1000) == pytest.approx(41.8, rel=1e-3)


def test_western_fence_lizard_in_the_field() -> None:
    """141.4 J/g/day in spring, 127.2 in fall: Bennett & Nagy 1977 (published abstract), 12 g."""
    joule_per_g = field_kj_per_day(12) * 1000 / 12
    assert joule_per_g == pytest.approx(141.4, rel=0.055)
    assert joule_per_g == pytest.approx(127.2, rel=0.175)


def test_another_model_of_metabolism() -> None:
    """0.06373 W for 100 g at 30 °C: form of Gillooly et al. 2001 as a public help page works it."""
    watts = resting_kj_per_day(100, 30) * 0.0115741
    assert 0.06373 / watts == pytest.approx(1.16, abs=0.01)


def test_whole_day_cost_of_a_crag_lizard() -> None:
    """3074 J/day in summer, 1537 in winter for 40 g Pseudocordylus (published abstract)."""
    resting = resting_kj_per_day(40, 25) * 1000
    assert 1.0 < 1537 / resting < 1.1
    assert 2.0 < 3074 / resting < 2.2


def test_day_old_burmese_pythons_run_above_the_equation() -> None:
    """124 ml/kg/h at 28 °C: Copeia 1978:615-621 (published abstract); 1.5 to 2.2 × Eq. 2."""
    assert 124 / (oxygen_ml_per_hour(110, 28) / 0.110) < 2.2
    assert 124 / (oxygen_ml_per_hour(110, 28, resting=True) / 0.110) > 1.5


def test_cost_of_digestion_is_that_of_five_pythons() -> None:
    """317 to 347 kJ = 23 to 27 % of ingested energy: Ott & Secor 2007; up to 37 %: Secor 2008.

    Published abstracts. The meals behind them hold 1174 to 1509 kJ (arithmetic).
    """
    assert SNAKE_DIGESTION.least == 0.23
    assert SNAKE_DIGESTION.usual == pytest.approx((0.23 + 0.27) / 2)
    assert SNAKE_DIGESTION.most == 0.37
    assert 317 < (1174 + 1509) / 2 * SNAKE_DIGESTION.usual < 347
    for meal_kj in (1174, 1509):
        assert meal_kj * SNAKE_DIGESTION.least < 347.1 and meal_kj * SNAKE_DIGESTION.most > 317


def test_a_balance_leaves_what_digestion_does_not_take() -> None:
    """An adult rat of 330 g holds 2206 kJ (SACN Table 71-5); 63 to 77 % of it is left."""
    day = date(2026, 5, 1)
    offers = [Offer(day - timedelta(days=7 * n), "rat-very-large", 1, 1, 330) for n in range(8)]
    mass = Estimate(4000.0, 4000.0, 4000.0, Unit.MASS, Basis("given"))
    boa = species_rows()["Boa constrictor"]
    found = balance(boa, mass, offers, day, 8, rules_with({}, Display.METRIC))
    assert found.eaten.value == pytest.approx(2206 / 7, rel=1e-3)
    assert found.net.value == pytest.approx(2206 / 7 * 0.75, rel=1e-3)
    assert found.net.low < 2206 / 7 * 0.63 < 2206 / 7 * 0.77 < found.net.high


@pytest.mark.parametrize(
    ("days_ago", "mass_g", "level"),
    [(14, 890, Level.VET), (14, 940, Level.SOON), (300, 790, Level.VET), (300, 890, Level.SOON)],
)
def test_loss_of_10_percent_acute_or_20_chronic_goes_to_a_vet(
    days_ago: int, mass_g: float, level: Level
) -> None:
    """Support from more than 10 % of body mass lost acutely or 20 % chronically: Kaplan 2000."""
    day, rules = date(2026, 5, 1), rules_with({}, Display.METRIC)
    weighings = [Weighing(day - timedelta(days=days_ago), 1000), Weighing(day, mass_g)]
    case = Case((), loss(weighings, day, rules), (), (7, 14), None)
    found = judge(case, day, rules)
    assert found is not None
    assert found.level is level


def test_kilojoule_of_a_kilocalorie() -> None:
    """4.184, as on the page of SACN Table 71-5."""
    assert KJ_PER_KCAL == 4.184
