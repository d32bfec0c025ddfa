"""What to take out of the freezer."""

from __future__ import annotations

from warmside.plugins.feeding.planning.fit import Fit
from warmside.plugins.feeding.prey.classes import prey_classes
from warmside.plugins.feeding.stock.thaw import thaw_list


def fit(code: str, count: int) -> Fit:
    prey = prey_classes()[code]
    return Fit(prey, count, count, prey.mass_g, prey.mass_g)


def test_one_list_for_the_whole_round_from_small_to_large() -> None:
    found = thaw_list([fit("rat-small", 1), fit("mouse-adult", 2), fit("mouse-adult", 1)])
    assert [line.words for line in found] == ["3 × adult mouse", "1 × small rat"]
    assert [line.animals for line in found] == [2, 1]


def test_insects_are_not_thawed() -> None:
    assert thaw_list([fit("cricket-adult", 9)]) == ()
