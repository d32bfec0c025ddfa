"""Values become words in the keeper's units, with no more digits than are known."""

from __future__ import annotations

from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.answers.parts import Cell, Fact, Kind
from warmside.core.values.basis import Basis, Estimate, Mark, Source
from warmside.core.values.quantities import Display
from warmside.core.values.units import Unit
from warmside.faces.cells import basis_text, cell_text, range_digits, rounded, said_bases
from warmside.faces.look import Look

LOOK = Look(80, Display.METRIC, ZoneInfo("Europe/Vienna"))
IMPERIAL = Look(80, Display.IMPERIAL, ZoneInfo("Europe/Vienna"))
BASIS = Basis("a rule", Source("a table", Mark.PUBLISHED), (1, 2))


def estimate(value: float | None, low: float, high: float, unit: Unit = Unit.ENERGY_RATE) -> Cell:
    return Estimate(value, low, high, unit, BASIS)


@pytest.mark.parametrize(
    ("value", "kind", "shown"),
    [
        (None, Unit.MASS, "–"),
        (float("nan"), Unit.MASS, "–"),
        (612.0, Unit.MASS, "612 g"),
        (True, Kind.YESNO, "yes"),
        (("het snow", "visual amel"), Kind.LIST, "het snow, visual amel"),
        ((), Kind.LIST, "–"),
        (date(2025, 3, 1), Kind.DATE, "2025-03-01"),
        ("2024-05", Kind.DATE, "2024-05"),
        (datetime(2025, 6, 1, 18, 30, tzinfo=UTC), Kind.MOMENT, "2025-06-01 20:30"),
        ("007", Kind.CODE, "007"),
        (12, Kind.TEXT, "12"),
        ("a\x1b[2J", Kind.TEXT, "a\\x1b[2J"),
    ],
)
def test_each_kind_of_value_is_said(value: Cell, kind: Kind | Unit, shown: str) -> None:
    assert cell_text(value, kind, LOOK) == shown


@pytest.mark.parametrize(
    ("cell", "shown"),
    [
        (estimate(8.14, 6.93, 9.42), "8.1 (6.9–9.4) kJ/day"),
        (estimate(None, 6.93, 9.42), "6.9–9.4 kJ/day"),
        (estimate(31.26, 25.8, 37.2), "31 (26–37) kJ/day"),
        (estimate(812.4, 690.0, 940.0, Unit.MASS), "810 (690–940) g"),
        (estimate(0.3, -0.5, 1.2, Unit.GROWTH_RATE), "0.3 (-0.5 to 1.2) g/day"),
        (estimate(0.0, -0.001, 0.9, Unit.GROWTH_RATE), "0.00 (0.00 to 0.90) g/day"),
        (estimate(5.0, 4.0, float("inf"), Unit.DAYS), "5.0 (4.0–∞) days"),
        (estimate(50.0, 50.0, 50.0, Unit.MASS), "50 g"),
        (estimate(0.25, 0.1, 0.5, Unit.PROBABILITY), "0.25 (0.10–0.50)"),
        (estimate(8.0, 6.0, 10.0, Unit.TEMPERATURE_DIFFERENCE), "8.0 (6.0–10.0) °C"),
        (estimate(None, 20.0, 759.0, Unit.AGE), "20 days to 2 y 1 m"),
        (estimate(365.0, 330.0, 400.0, Unit.AGE), "1 y (11 months to 1 y 1 m)"),
        (estimate(None, 730.0, 735.0, Unit.AGE), "2 y"),
    ],
)
def test_an_estimate_shows_its_range_to_the_digit_it_warrants(cell: Cell, shown: str) -> None:
    assert cell_text(cell, Unit.ENERGY_RATE, LOOK) == shown


def test_an_estimate_is_converted_before_it_is_rounded() -> None:
    shown = cell_text(estimate(30.0, 29.0, 31.0, Unit.TEMPERATURE), Unit.TEMPERATURE, IMPERIAL)
    assert shown == "86.0 (84.2–87.8) °F"


def test_digits_are_never_finer_than_a_published_statement_of_uncertainty() -> None:
    """NIST Technical Note 1297, example 2, published: (100.021 47 ± 0.000 70) g, two figures.

    Ours are two figures of the whole range, hence one decimal fewer here.
    """
    cell = estimate(100.02147, 100.02147 - 0.00070, 100.02147 + 0.00070, Unit.RATIO)
    assert cell_text(cell, Unit.RATIO, LOOK) == "100.0215 (100.0208–100.0222)"


@given(st.floats(-1e6, 1e6), st.floats(1e-4, 1e6))
def test_rounding_moves_a_number_by_less_than_a_tenth_of_its_range(low: float, room: float) -> None:
    digits = range_digits(low, low + room)
    assert abs(float(rounded(low, digits)) - low) <= room / 10


def test_a_basis_says_rule_source_mark_and_records() -> None:
    assert basis_text(BASIS) == "a rule; a table [published]; from 2 records"
    one = Basis("last weighing", events=(7,))
    said = "last weighing; the collection's own records [keeper's own]; from 1 record"
    assert basis_text(one) == said


def test_the_same_basis_is_said_once_for_neighbours() -> None:
    facts = [
        Fact("a", "a", estimate(2.0, 1.0, 3.0), Unit.ENERGY_RATE),
        Fact("b", "b", estimate(2.0, 1.0, 3.0), Unit.ENERGY_RATE),
        Fact("c", "c", 1),
        Fact("d", "d", 1, basis=BASIS),
    ]
    assert said_bases(facts) == [basis_text(BASIS), "as above", "", basis_text(BASIS)]
