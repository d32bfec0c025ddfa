"""Weighings in the history that fit another animal."""

from __future__ import annotations

from warmside.api import Display
from warmside.plugins.weight.course.series import Weighings, weighings
from warmside.plugins.weight.slips.suspicion import Suspect
from warmside.plugins.weight.slips.swapped import swap_suspicions

DAY = 738_000.0


def _series(first: int, *masses: float) -> Weighings:
    return weighings((first + i, DAY + 14 * i, mass) for i, mass in enumerate(masses))


def test_two_animals_swapped_on_a_day_are_both_found() -> None:
    """Each with the other's code and the mass that was probably its own."""
    one = _series(10, 400, 404, 250, 408, 410)
    two = _series(20, 245, 248, 406, 251, 252)
    known = {"ONE": one, "TWO": two}
    (first,) = swap_suspicions(one, "ONE", lambda: known)
    (second,) = swap_suspicions(two, "TWO", lambda: known)
    assert (first.kind, first.events, first.animals) == (Suspect.WRONG_ANIMAL, (12,), ("TWO",))
    assert (second.events, second.animals) == ((22,), ("ONE",))
    assert "near that of TWO" in first.words.said(Display.METRIC)


def test_a_weighing_that_fits_nobody_is_not_a_swap() -> None:
    """Nor one that is its own neighbours' mass, nor a lasting change, nor one left out."""
    one = _series(10, 400, 404, 250, 408, 410)
    assert (
        swap_suspicions(one, "ONE", lambda: {"ONE": one, "TWO": _series(20, 90, 91, 92, 93)}) == ()
    )
    two = _series(20, 245, 248, 249, 251, 252)
    assert swap_suspicions(one, "ONE", lambda: {"TWO": two}, {12}) == ()
    lasting = _series(10, 400, 404, 250, 252, 254)
    assert swap_suspicions(lasting, "ONE", lambda: {"TWO": two}) == ()


def test_another_animal_of_long_ago_is_no_witness() -> None:
    """Its mass of then says nothing of now."""
    one = _series(10, 400, 404, 250, 408, 410)
    old = weighings((20 + i, DAY - 400 + 14 * i, 250.0) for i in range(5))
    assert swap_suspicions(one, "ONE", lambda: {"OLD": old}) == ()


def test_the_others_are_asked_for_only_where_a_weighing_stands_alone() -> None:
    """So that one animal's report does not read all animals."""

    def nobody() -> dict[str, Weighings]:
        raise AssertionError("asked for the others")

    assert swap_suspicions(_series(10, 400, 404, 402, 408, 410), "ONE", nobody) == ()


def test_after_laying_a_true_weighing_is_no_mix_up() -> None:
    """Though another animal weighs as much; nor is growth that goes on as it did."""
    dam, two = _series(10, 1000, 1010, 1020, 720), _series(20, 715, 718, 720, 722)
    known = {"TWO": two}
    assert swap_suspicions(dam, "DAM", lambda: known, laid=[DAY + 35]) == ()
    assert swap_suspicions(dam, "DAM", lambda: known) != ()
    young = _series(10, 10, 13, 17, 22, 28, 40)
    assert swap_suspicions(young, "YOU", lambda: {"TWO": _series(20, 40, 40, 40, 40, 41)}) == ()
