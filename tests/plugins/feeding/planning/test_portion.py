"""How big a meal is and which prey makes it up."""

from __future__ import annotations

import math
from datetime import date, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from warmside.core.values.basis import Basis, Estimate, Mark
from warmside.core.values.quantities import Display
from warmside.core.values.units import Unit
from warmside.plugins.feeding.care.rules import rules_with
from warmside.plugins.feeding.care.species import Species, species_for, species_rows, with_own
from warmside.plugins.feeding.meals.records import Weighing
from warmside.plugins.feeding.planning.mass import mass_now
from warmside.plugins.feeding.planning.portion import (
    fits,
    meal_range,
    why_nothing_fits,
    width_words,
)

DAY = date(2026, 5, 1)
RULES = rules_with({}, Display.METRIC)
KING = species_rows()["Lampropeltis californiae"]
GECKO = species_rows()["Eublepharis macularius"]
DRAGON = species_rows()["Pogona vitticeps"]
SIZED = [name for name, row in species_rows().items() if row.meal_percent]
names = st.sampled_from(SIZED)
masses = st.floats(1, 6000)


def grams(value: float) -> Estimate:
    return Estimate(value, value, value, Unit.MASS, Basis("given"))


def fits_at(species: Species, mass_g: float, **more: float | str) -> list[str]:
    meal = meal_range(grams(mass_g), species)
    return [f.words(RULES) for f in fits((meal.low, meal.high), species, mass_g, RULES, **more)]  # type: ignore[arg-type]


def test_a_meal_is_a_share_of_body_mass_by_stage() -> None:
    meal = meal_range(grams(40), KING)
    assert (meal.low, meal.high) == (3.2, 4.8)
    assert meal.basis.source.mark is Mark.COMMON_PRACTICE
    assert "8 to 12 % of body mass as juvenile" in meal.basis.rule


def test_a_cut_meal_is_smaller_and_says_so() -> None:
    meal = meal_range(grams(40), KING, percent=50)
    assert (meal.low, meal.high) == (1.6, 2.4)
    assert "cut to 50 %" in meal.basis.rule


@given(names, masses, masses, st.integers(0, 400))
def test_more_mass_never_gives_a_smaller_range(name: str, a: float, b: float, age: int) -> None:
    species, (light, heavy) = species_rows()[name], sorted((a, b))
    small, big = (
        meal_range(
            mass_now(Weighing(DAY - timedelta(days=age), m), DAY, species, RULES).mass, species
        )
        for m in (light, heavy)
    )
    assert small.low <= big.low * 1.000001 and small.high <= big.high * 1.000001


@given(names, masses, st.floats(10, 100), st.one_of(st.none(), st.floats(20, 400)))
@settings(max_examples=300)
def test_never_recommends_a_meal_outside_its_own_range(
    name: str, mass_g: float, percent: float, girth_mm: float | None
) -> None:
    species = species_rows()[name]
    meal = meal_range(grams(mass_g), species, percent)
    for fit in fits((meal.low, meal.high), species, mass_g, RULES, girth_mm):
        assert meal.low * 0.999999 <= fit.total_g[0] <= fit.total_g[1] <= meal.high * 1.000001
        if fit.prey.weighed:
            continue
        assert fit.prey.mass_g[0] <= fit.each_g[0] <= fit.each_g[1] <= fit.prey.mass_g[1]
        assert 1 <= fit.count_low <= fit.count <= fit.count_high
        if girth_mm:
            width = fit.prey.width_mm(fit.each_g[1])
            assert width <= species.width_ratio[1] * girth_mm / math.pi * 1.000001


def test_one_big_or_two_small() -> None:
    found = fits_at(KING, 350)
    assert any(words.startswith("1 × adult mouse") for words in found)
    assert any(words.startswith("2 × weaned mouse") for words in found)
    assert found[0].startswith("1 ×")


def test_the_usual_prey_comes_first_while_it_fits() -> None:
    assert fits_at(KING, 350, usual="rat-pup")[0].startswith("1 × rat pup")
    assert "pinky" not in fits_at(KING, 350, usual="rat-pinky")[0]
    assert "rat" in fits_at(KING, 350, usual="rat-pinky")[0]


def test_birds_come_after_rodents_unless_it_eats_birds() -> None:
    kinds = ["chick" in words or "quail" in words for words in fits_at(KING, 500)]
    assert kinds == sorted(kinds)
    assert "chick" in fits_at(KING, 500, usual="chick-day-old")[0]


def test_the_width_rule_keeps_wide_prey_away() -> None:
    assert any("hopper" in words for words in fits_at(KING, 90))
    assert not any("hopper" in words for words in fits_at(KING, 90, girth_mm=30))


def test_width_is_told_against_the_girth_or_said_to_be_unknown() -> None:
    fit = fits((20, 30), KING, 200, RULES)[0]
    assert "no girth on record" in width_words(fit, None, RULES)
    assert "times the body by its girth" in width_words(fit, 90, RULES)


def test_a_hatchling_too_small_for_any_prey_is_told() -> None:
    assert fits((0.2, 0.4), KING, 2, RULES) == ()
    assert "less than one day-old pinky" in why_nothing_fits((0.2, 0.4), KING, None, RULES)


def test_a_hatchling_that_eats_worms_gets_a_piece() -> None:
    garter = fits_at(species_rows()["Thamnophis sirtalis"], 2)
    assert garter[0] == "0.16 to 0.3 g of piece of earthworm"


def test_other_reasons_that_nothing_fits() -> None:
    assert "width rule" in why_nothing_fits((20, 30), KING, 20, RULES)
    big = with_own(KING, prey=("mouse-pinky",))
    assert fits((20, 30), big, 200, RULES) == ()
    assert "no class in usual counts" in why_nothing_fits((20, 30), big, None, RULES)


def test_insects_go_by_count() -> None:
    assert "3 to 5 × adult cricket, 1.4 to 2.3 g together" in fits_at(GECKO, 55)


def test_no_insect_is_too_big_for_a_hatchling() -> None:
    found = fits_at(GECKO, 3)
    assert found and not any("adult" in words or "Zophobas" in words for words in found)


def test_treats_come_last() -> None:
    assert "waxworm" in " ".join(fits_at(GECKO, 55, usual="waxworm")[-2:])


def test_greens_go_by_weight() -> None:
    assert "8.4 to 17 g of leafy greens" in fits_at(DRAGON, 280)


def test_no_share_is_known_of_an_unknown_species() -> None:
    species = species_for("Coelognathus radiatus", "colubrid")
    assert species is not None and species.meal_percent == {}


def test_an_imperial_collection_reads_ounces_and_inches() -> None:
    imperial = rules_with({}, Display.IMPERIAL)
    fit = fits((40, 80), KING, 800, RULES)[0]
    assert fit.words(imperial).endswith(" oz") and " g" not in fit.words(imperial)
    assert " in wide" in width_words(fit, 90, imperial)
