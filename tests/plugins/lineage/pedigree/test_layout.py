"""Where animals stand in a drawn pedigree."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from warmside.plugins.lineage.pedigree.layout import layout
from warmside.plugins.lineage.pedigree.lines import Measures, centre, lines
from warmside.plugins.lineage.pedigree.people import Drawn, Family
from warmside.plugins.lineage.telling.drawing import PAGE_MM, pedigree_drawing

SIZES = Measures(28.0, 4.0, 22.0, 1.0)


def family(dam: int | None, sire: int | None, *young: int) -> Family:
    return Family(dam, sire, young, {})


@st.composite
def drawings(draw: st.DrawFn) -> tuple[list[Drawn], list[Family]]:
    count = draw(st.integers(2, 60))
    animals = [
        Drawn(n, draw(st.sampled_from(["male", "female", "unknown"])), (f"A{n}",))
        for n in range(count)
    ]
    by_pair: dict[tuple[int, int], list[int]] = {}
    for n in range(2, count):
        if draw(st.booleans()):
            dam, sire = draw(st.lists(st.integers(0, n - 1), min_size=2, max_size=2, unique=True))
            by_pair.setdefault((dam, sire), []).append(n)
    return animals, [family(dam, sire, *young) for (dam, sire), young in by_pair.items()]


@settings(max_examples=20)
@given(drawings())
def test_nobody_stands_on_another_and_young_stand_below_their_parents(drawn) -> None:
    animals, families = drawn
    places = layout(animals, families)
    for (x1, row1), (x2, row2) in combinations(places.values(), 2):
        assert row1 != row2 or abs(x1 - x2) > 1 - 1e-6
    for found in families:
        for young in found.young:
            assert all(places[p][1] < places[young][1] for p in found.parents)


@settings(max_examples=20)
@given(drawings())
def test_sixty_animals_fit_on_a_page(drawn) -> None:
    animals, families = drawn
    picture = pedigree_drawing(animals, families, "", ("text",))
    assert picture.width <= PAGE_MM[0] + 1e-6
    assert len(picture.data["animals"]) == len(animals)  # type: ignore[arg-type]


def test_mates_without_parents_stand_beside_their_mates() -> None:
    animals = [Drawn(n, "unknown", ()) for n in range(5)]
    places = layout(animals, [family(0, 1, 2), family(2, 3, 4)])
    assert places[3][1] == places[2][1] == 1
    assert places[4][1] == 2


def test_parents_side_by_side_are_joined_by_one_line_doubled_where_related() -> None:
    animals = [Drawn(n, "unknown", ()) for n in range(3)]
    pair = Family(0, 1, (2,), {}, related=True)
    places = layout(animals, [pair])
    first, *_ = lines([pair], places, SIZES)
    assert first.double
    (x1, y1), (x2, y2) = first.points
    assert y1 == y2 == centre(places[0], SIZES)[1]
    assert x2 - x1 == pytest.approx(SIZES.cell - 2 * SIZES.radius)


def test_an_unsure_parent_hangs_from_a_dashed_line() -> None:
    animals = [Drawn(n, "unknown", ()) for n in range(3)]
    unsure = Family(0, 1, (2,), {1: 0.7})
    assert any(line.dashed for line in lines([unsure], layout(animals, [unsure]), SIZES))
