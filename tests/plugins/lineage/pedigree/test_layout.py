"""Where animals stand in a drawn pedigree."""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from warmside.api import shapes
from warmside.plugins.lineage.pedigree.gathering import gathered
from warmside.plugins.lineage.pedigree.layout import layout
from warmside.plugins.lineage.pedigree.lines import Measures, centre, lines
from warmside.plugins.lineage.pedigree.people import Drawn, Family
from warmside.plugins.lineage.pedigree.words import below
from warmside.plugins.lineage.telling.drawing import pedigree_drawing

SIZES = Measures(28.0, 4.0, 30.0, 9.0)


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


def of_generations(*sizes: int) -> tuple[list[Drawn], list[Family]]:
    """Generations of so many animals, each of pairs that stand side by side in the one before."""
    animals, families, before = [], [], list[int]()
    for size in sizes:
        new = [len(animals) + n for n in range(size)]
        animals += [Drawn(n, "unknown", (f"Snake {n}", f"S{n}", "2019-07-01")) for n in new]
        pairs = [before[n : n + 2] for n in range(0, len(before) - 1, 4)]
        for at, (dam, sire) in enumerate(pairs):
            families.append(family(dam, sire, *new[at :: len(pairs)]))
        before = new
    return animals, families


def test_sixty_animals_can_be_read_on_one_page() -> None:
    """As a whole on A4, its margins left, letters keep more than 5 points (6.5 as drawn)."""
    animals, families = of_generations(6, 10, 12, 14, 12, 6)
    picture = pedigree_drawing(animals, families, "", ("text",))
    share = min(257 / picture.width, 145 / picture.height)
    letters = min(s.size for s in picture.shapes if isinstance(s, shapes.Label) and s.bold)
    assert len(animals) == 60 and picture.whole and share * letters > 5
    assert len(picture.data["animals"]) == 60  # type: ignore[arg-type]


def test_sibs_alike_stand_as_one_with_their_number_where_a_row_is_wide() -> None:
    animals, families = of_generations(2, 25)
    picture = pedigree_drawing(animals, families, "", ("text",))
    said = {s.text for s in picture.shapes if isinstance(s, shapes.Label)}
    assert {"25", "25 alike", "S2", "S26"} <= said and "S7" not in said
    assert len(picture.data["animals"]) == 27  # type: ignore[arg-type]
    narrow = gathered(*of_generations(2, 9))
    assert len(narrow.animals) == 11


def test_mates_stand_side_by_side_where_the_order_allows_it() -> None:
    """A sire of two dams has one at each side, whatever order they came in."""
    animals = [Drawn(n, "unknown", ()) for n in range(7)]
    families = [family(0, 1, 2, 3, 4), family(2, 4, 5), family(3, 4, 6)]
    places = layout(animals, families)
    assert [abs(places[dam][0] - places[4][0]) for dam in (2, 3)] == pytest.approx([1, 1], abs=0.3)


@settings(max_examples=8)
@given(drawings())
def test_lines_of_one_gap_that_would_meet_lie_at_heights_of_their_own(drawn) -> None:
    animals, families = drawn
    places = layout(animals, families)
    flat = [
        (min(a, b), max(a, b), y)
        for line in lines(families, places, SIZES)
        for (a, y), (b, y2) in pairwise(line.points)
        if y == y2 and y % SIZES.row > 2 * SIZES.radius + 1 + SIZES.words + 0.1
    ]
    for (l1, r1, y1), (l2, r2, y2) in combinations(flat, 2):
        assert y1 != y2 or r1 < l2 or r2 < l1


def test_the_name_has_two_lines_and_a_day_without_room_is_a_year() -> None:
    assert below(("Lady Macbeth of the Shelf", "B1", "2022-07-01"), 11.0, 6.0) == [
        ("Lady", True),
        ("Macbet…", True),
        ("B1", False),
        ("2022", False),
    ]


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
