"""The prey table against published composition."""

from __future__ import annotations

import pytest

from warmside.core.figures.sourced import sourced_rows
from warmside.core.values.basis import Mark
from warmside.plugins.feeding.prey.classes import prey_classes

# water %, kcal/g as fed, kcal/g dry, kJ per item; mass of the item in g
SACN_71_5 = {
    "mouse-day-old": (1.5, 81, 0.8, 4.2, 5.0),
    "mouse-fuzzy": (4, 71, 1.7, 5.9, 28.6),
    "mouse-adult": (27, 65, 1.7, 4.8, 189.8),
    "rat-very-large": (330, 66, 1.6, 4.7, 2206),
    "chick-day-old": (40, 73, 1.3, 4.8, 216.9),
}
# moisture %, crude protein %, fat %, fibre (ADF) %, ash %, kcal/g as fed
FINKE = {
    "cricket-adult": (69.2, 20.5, 6.8, 3.2, 1.1, 1.40),
    "cricket-nymph": (77.1, 15.4, 3.3, 2.2, 1.1, 0.95),
    "mealworm": (61.9, 18.7, 13.4, 2.5, 0.9, 2.05),
    "zophobas": (57.9, 19.7, 17.7, 2.7, 1.0, 2.42),
    "waxworm": (58.5, 14.1, 24.9, 3.4, 0.6, 2.75),
    "silkworm": (82.7, 9.3, 1.4, 1.1, 1.1, 0.67),
    "soldier-fly-larva": (61.2, 17.5, 14.0, 3.0, 3.5, 1.99),
    "roach-nymph": (69.1, 19.0, 10.0, 2.2, 1.2, 1.60),
    "roach-adult": (56.6, 26.3, 13.6, 0.0, 1.65, 2.27),
}


@pytest.mark.parametrize("code", SACN_71_5)
def test_vertebrate_energy_is_rebuilt_from_water_and_dry_matter(code: str) -> None:
    """Small Animal Clinical Nutrition 5th ed., ch. 71, Table 71-5 (published, primary).

    Dry-matter energy times dry matter gives the as-fed column to ±0.05 kcal/g.
    """
    mass_g, water, as_fed, dry, kj = SACN_71_5[code]
    prey = prey_classes()[code]
    assert prey.kcal_per_g == pytest.approx((1 - water / 100) * dry, abs=1e-9)
    assert prey.kcal_per_g == pytest.approx(as_fed, abs=0.05)
    assert prey.kj(mass_g) == pytest.approx(kj, rel=0.005)
    assert prey.mass_g[0] <= mass_g <= prey.mass_g[1]
    assert prey.energy_source.mark is Mark.PUBLISHED


@pytest.mark.parametrize("code", ["mouse-adult", "rat-very-large", "chick-day-old"])
def test_vertebrate_energy_is_used_within_15_percent(code: str) -> None:
    """Table 71-5 gives one sample a row; ±15 % for use is common practice, no source."""
    prey = prey_classes()[code]
    assert prey.kcal_range[0] == pytest.approx(prey.kcal_per_g * 0.85)
    assert prey.kcal_range[1] == pytest.approx(prey.kcal_per_g * 1.15)


@pytest.mark.parametrize("code", FINKE)
def test_insect_energy(code: str) -> None:
    """Hand-Rearing Birds 2nd ed., Table 41.1, after Finke (published, secondary), ±10 %."""
    prey, row = prey_classes()[code], _row(code)
    assert prey.kcal_per_g == FINKE[code][-1]
    assert row["water_percent"] == FINKE[code][0]
    assert prey.kcal_range[0] <= 0.9001 * prey.kcal_per_g
    assert prey.kcal_range[1] >= 1.0999 * prey.kcal_per_g
    assert prey.energy_source.mark is Mark.SECONDARY


@pytest.mark.parametrize("code", FINKE)
def test_insects_lie_within_the_bounds_of_the_studies(code: str) -> None:
    """Finke 2002 (674 to 2741 kcal/kg) and 2013 (918 to 2977): published abstracts.

    1 % for the rounding of the secondary table.
    """
    assert 0.674 * 0.99 <= prey_classes()[code].kcal_per_g <= 2.977


@pytest.mark.parametrize("code", FINKE)
def test_insect_energy_agrees_with_composition(code: str) -> None:
    """3.5 kcal/g protein and carbohydrate, 8.5 fat (SACN ch. 71, published), within 15 %.

    From the table's own columns; carbohydrate is what they leave of 100 %.
    """
    water, protein, fat, fibre, ash, kcal = FINKE[code]
    rest = max(0.0, 100 - water - protein - fat - fibre - ash)
    assert (3.5 * (protein + rest) + 8.5 * fat) / 100 == pytest.approx(kcal, rel=0.15)


def test_cricket_range_spans_both_tables() -> None:
    """SACN Table 71-6 (published, primary): crickets 1.0 and 1.9 kcal/g as fed."""
    low, high = prey_classes()["cricket-adult"].kcal_range
    assert low <= 1.0 and high >= 1.9


@pytest.mark.parametrize(
    ("code", "dry", "protein", "fat"),
    [
        ("rat-pinky", 20.8, 57.9, 23.7),
        ("rat-fuzzy", 30.0, 56.1, 27.5),
        ("quail-adult", 34.6, 71.5, 31.9),
    ],
)
def test_rows_worked_from_dry_matter(code: str, dry: float, protein: float, fat: float) -> None:
    """Dierenfeld, Alcorn & Jacobsen 2002 (from memory), energy factors of SACN ch. 71."""
    prey = prey_classes()[code]
    worked = dry / 100 * (3.5 * protein + 8.5 * fat) / 100
    assert prey.kcal_per_g == pytest.approx(worked, abs=0.02)
    assert prey.energy_source.mark is Mark.FROM_MEMORY


@pytest.mark.parametrize(
    ("code", "mass_g"),
    [
        ("mouse-pinky", (1.8, 3)),
        ("mouse-fuzzy", (3, 6)),
        ("mouse-hopper", (7, 13)),
        ("mouse-weaned", (13, 18)),
        ("mouse-adult", (18, 30)),
        ("mouse-large", (30, 45)),
        ("rat-pinky", (6, 9)),
        ("rat-fuzzy", (9, 19)),
        ("rat-pup", (20, 30)),
        ("rat-weaned", (30, 50)),
        ("rat-small", (50, 100)),
        ("rat-medium", (100, 150)),
        ("rat-large", (150, 250)),
    ],
)
def test_mass_classes(code: str, mass_g: tuple[float, float]) -> None:
    """Classes of the trade: common practice, no source, and marked so."""
    prey = prey_classes()[code]
    assert prey.mass_g == mass_g
    assert prey.mass_source.mark is Mark.COMMON_PRACTICE


def test_an_adult_mouse_is_about_two_centimetres_wide() -> None:
    """From memory: an adult mouse is some 2 to 3 cm wide, a rat of 300 g some 5 cm."""
    assert prey_classes()["mouse-adult"].width_mm(25) == pytest.approx(22, abs=3)
    assert prey_classes()["rat-very-large"].width_mm(300) == pytest.approx(50, abs=6)


def _row(code: str) -> dict[str, float]:
    return next(
        dict(r)
        for r in sourced_rows("warmside.plugins.feeding", "insects", "food")
        if r["code"] == code
    )
