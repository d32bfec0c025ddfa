"""How big a meal is and which prey makes it up."""

from __future__ import annotations

import math
from datetime import date, timedelta
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from warmside.core.values.basis import Basis, Estimate, Mark
from warmside.core.values.quantities import Display
from warmside.core.values.units import Unit
from warmside.plugins.feeding.care.diets import Stage
from warmside.plugins.feeding.care.rules import rules_with
from warmside.plugins.feeding.care.species import Species, species_for, species_rows, with_own
from warmside.plugins.feeding.meals.records import Weighing
from warmside.plugins.feeding.planning.fit import Eater
from warmside.plugins.feeding.planning.head import eyes_mm
from warmside.plugins.feeding.planning.mass import mass_now
from warmside.plugins.feeding.planning.nearest import nearest, one_item_words
from warmside.plugins.feeding.planning.portion import (
    fits,
    meal_range,
    why_nothing_fits,
    width_words,
)
from warmside.plugins.feeding.planning.share import meal_grams, meal_share

DAY = date(2026, 5, 1)
RULES = rules_with({}, Display.METRIC)
KING = species_rows()["Lampropeltis californiae"]
GECKO = species_rows()["Eublepharis macularius"]
DRAGON = species_rows()["Pogona vitticeps"]
SIZED = [name for name, row in species_rows().items() if row.meal_percent]
WHOLE_PREY = [n for n in SIZED if species_rows()[n].diet.name == "rodents"]
names = st.sampled_from(SIZED)
masses = st.floats(1, 6000)


def grams(value: float) -> Estimate:
    return Estimate(value, value, value, Unit.MASS, Basis("given"))


def eater(species: Species, mass_g: float, usual: str = "", **more: Any) -> Eater:
    eaten = (usual,) if usual else ()
    hatchling = species.has_stages and mass_g < species.from_g[0]
    return Eater(species, mass_g, int(RULES.most_items), eaten=eaten, hatchling=hatchling, **more)


def fits_at(species: Species, mass_g: float, usual: str = "", **more: Any) -> list[str]:
    meal = meal_range(grams(mass_g), species)
    found = fits((meal.low, meal.high), eater(species, mass_g, usual, **more))
    return [f.words(RULES) for f in found]


def test_a_meal_is_a_share_of_body_mass_by_stage() -> None:
    meal = meal_range(grams(49), KING)
    assert (meal.low, meal.high) == pytest.approx((3.92, 5.88), rel=1e-3)
    assert meal.basis.source.mark is Mark.COMMON_PRACTICE
    assert meal.basis.rule == "8 to 12 % of body mass"
    staged = meal_range(grams(49), KING, stage=Stage.JUVENILE)
    assert staged.basis.rule == "8 to 12 % of body mass as juvenile" and staged.high == meal.high


def test_a_cut_meal_is_smaller_and_says_so() -> None:
    meal = meal_range(grams(49), KING, percent=50)
    assert (meal.low, meal.high) == pytest.approx((1.96, 2.94), rel=1e-3)
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


@pytest.mark.parametrize("name", SIZED)
def test_a_meal_never_shrinks_between_two_stages_however_fast_the_share_falls(name: str) -> None:
    species = species_rows()[name]
    ladder = [meal_grams(species, 1.01**step) for step in range(1070)]  # 1 g to 42 kg
    for end in (0, 1):
        meals = [meal[end] for meal in ladder]
        assert all(one <= more * 1.000001 for one, more in pairwise(meals))


@given(names, masses, st.floats(10, 100), st.one_of(st.none(), st.floats(20, 400)))
@settings(max_examples=300)
def test_never_recommends_a_meal_outside_its_own_range(
    name: str, mass_g: float, percent: float, girth_mm: float | None
) -> None:
    species = species_rows()[name]
    meal = meal_range(grams(mass_g), species, percent)
    who = eater(species, mass_g, girth_mm=girth_mm)
    near = nearest((meal.low, meal.high), who)
    for fit in fits((meal.low, meal.high), who):
        if fit in near:
            continue
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
    assert any(words.startswith("2 × hopper mouse") for words in found)
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
    fit = fits((20, 30), eater(KING, 200))[0]
    assert "no girth on record" in width_words(fit, None, RULES)
    assert "times the body by its girth" in width_words(fit, 90, RULES)


def test_a_hatchling_snake_takes_a_larger_share_in_one_item() -> None:
    """15 to 35 % of a snake under 15 g: common practice, no source."""
    (only,) = fits((0.6, 0.9), eater(KING, 6))
    assert only.dish == "1 × day-old pinky mouse" and only.total_g[1] <= 0.35 * 6


def test_one_too_small_for_any_prey_gets_a_piece() -> None:
    (piece,) = fits((0.2, 0.4), eater(KING, 2))
    assert piece.dish == "a piece of day-old pinky mouse" and piece.total_g == (0.2, 0.4)
    assert piece.words(RULES) == "0.2 to 0.4 g cut from day-old pinky mouse"


def test_between_two_classes_it_is_one_that_can_be_bought() -> None:
    """No fuzzy mouse of 2 g: the lighter class, whole."""
    (found,) = fits((6.2, 6.8), Eater(with_own(KING, prey=("mouse",)), 120, most=1))
    assert found.prey.code == "mouse-fuzzy" and found.each_g == found.prey.mass_g


@given(st.sampled_from(WHOLE_PREY), st.floats(1.5, 6000), st.floats(30, 100))
@settings(max_examples=150)
def test_who_eats_whole_prey_always_gets_an_answer(
    name: str, mass_g: float, percent: float
) -> None:
    species = species_rows()[name]
    meal = meal_range(grams(mass_g), species, percent)
    found = fits((meal.low, meal.high), eater(species, mass_g))
    assert found
    young = mass_g < species.from_g[0]
    assert found[0].total_g[0] <= max(1.3 * meal.high, 0.35 * mass_g if young else 0)


@given(st.sampled_from(WHOLE_PREY), st.floats(2, 6000))
def test_the_share_goes_down_without_a_step(name: str, mass_g: float) -> None:
    species = species_rows()[name]
    (low, high), (low2, high2) = (meal_share(species, m) for m in (mass_g, 1.01 * mass_g))
    assert low2 <= low * 1.000001 and high2 <= high * 1.000001
    assert low - low2 < 0.25 and high - high2 < 0.25


def test_an_old_animal_of_a_small_kind_eats_as_a_grown_one() -> None:
    assert meal_share(KING, 100) != KING.meal_percent[Stage.ADULT]
    assert meal_share(KING, 100, Stage.ADULT) == KING.meal_percent[Stage.ADULT]


def test_what_it_ate_before_comes_first_and_then_what_is_in_stock() -> None:
    assert fits_at(KING, 350, usual="mouse-adult")[0].startswith("1 × adult mouse")
    assert "rat" in fits_at(KING, 350, stocked=frozenset({"rat-pup"}))[0]
    both = fits_at(KING, 350, usual="mouse-adult", stocked=frozenset({"rat-pup"}))
    assert "mouse" in both[0], "a mouse eater is not made a rat eater by the freezer"


def test_a_gecko_of_twelve_grams_gets_no_crickets_of_two_centimetres() -> None:
    """Its eyes are some 12 mm apart; no insect longer than that: usual among keepers."""
    assert eyes_mm(12) == pytest.approx(11.7, abs=0.1)
    lengths = [f.prey.length_mm for f in fits((0.5, 1.0), eater(GECKO, 12)) if not f.prey.treat]
    assert lengths and all(span and sum(span) / 2 <= 1.5 * 11.7 for span in lengths)
    crickets = [f for f in fits((0.5, 1.0), eater(GECKO, 12)) if f.prey.kind == "cricket"]
    assert max(sum(f.prey.length_mm or ()) / 2 for f in crickets) <= 11.7


def test_a_grown_dragon_is_not_told_to_count_out_hundreds_of_small_insects() -> None:
    dragon = replace(DRAGON, part=next(p for p in DRAGON.diet.parts if p.key == "insects"))
    counts = [f.count_low for f in fits((4.5, 9.0), eater(dragon, 450)) if f.prey.insect]
    assert counts and max(counts) <= 40


def test_a_class_of_which_it_would_take_dozens_gives_way_to_a_larger_one_of_its_kind() -> None:
    dragon = replace(DRAGON, part=next(p for p in DRAGON.diet.parts if p.key == "insects"))
    first = fits((1.0, 4.5), eater(dragon, 80, usual="cricket-nymph"))[0]
    assert (first.prey.kind, first.prey.code) == ("cricket", "cricket-half")
    few = fits((0.6, 1.2), eater(dragon, 80, usual="cricket-nymph"))[0]
    assert few.prey.code == "cricket-nymph" and few.count <= 30


def test_eyes_that_were_measured_count() -> None:
    wide = fits((1.2, 2.5), eater(GECKO, 62, eyes_mm=26.0))
    assert "cricket-adult" in [f.prey.code for f in wide]
    assert "cricket-adult" not in [f.prey.code for f in fits((1.2, 2.5), eater(GECKO, 62))]


def test_a_hatchling_that_eats_worms_gets_a_piece() -> None:
    garter = fits_at(species_rows()["Thamnophis sirtalis"], 2)
    assert garter[0] == "0.16 to 0.3 g of piece of earthworm"


def test_one_pinky_for_a_hatchling_snake_is_said_to_be_more_than_its_usual_share() -> None:
    """15 to 35 % in one item for snakes under 15 g: common practice, no source."""
    corn = species_rows()["Pantherophis guttatus"]
    meal = meal_range(grams(6), corn)
    (fit, *_), young = fits((meal.low, meal.high), eater(corn, 6)), eater(corn, 6)
    said = one_item_words(fit, (meal.low, meal.high), young)
    assert "17 to 30 % of its mass" in said and "15 to 35 %" in said
    assert one_item_words(fit, (0.9, 1.8), young) == ""


def test_an_egg_is_not_cut_to_size() -> None:
    eggs = species_rows()["Dasypeltis"]
    assert fits((0.2, 0.4), eater(eggs, 2)) == ()
    assert "zebra finch egg; ask a vet" in why_nothing_fits((0.2, 0.4), eggs, None, RULES)


def test_other_reasons_that_nothing_fits() -> None:
    assert "width rule" in why_nothing_fits((20, 30), KING, 20, RULES)
    big = with_own(KING, prey=("mouse-pinky",))
    assert fits((20, 30), eater(big, 200))[0].words(RULES).startswith("3 × pinky mouse")
    assert "no class in usual counts" in why_nothing_fits((20, 30), big, None, RULES)


def test_insects_go_by_count() -> None:
    assert "6 to 11 × half-grown cricket, 1.2 to 2.2 g together" in fits_at(GECKO, 55)


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
    fit = fits((40, 80), eater(KING, 800))[0]
    assert fit.words(imperial).endswith(" oz") and " g" not in fit.words(imperial)
    assert " in wide" in width_words(fit, 90, imperial)
