"""Weights that look wrong when they are recorded: refused with the reason, kept when confirmed."""

from __future__ import annotations

import pytest

from warmside.testing import Keeper


def _codes(keeper: Keeper) -> list[str]:
    with keeper.ask() as ask:
        return [f.code for f in ask.findings(ask.book.today)]


def _count(keeper: Keeper) -> int:
    with keeper.book() as book:
        return len(book.events())


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("TUP=1030g", "check the number and the scale"),
        ("TUP=9.2g", "is only 3.2 % of the last weight"),
        ("TUP=170g", "near that of BEX"),
    ],
)
def test_an_odd_weight_is_refused_and_nothing_is_written(
    weigher: Keeper, typed: str, said: str
) -> None:
    """The line says why and how to go on."""
    before = _count(weigher)
    line = weigher.run("record", "weighed", typed, ok=False).complaint(4)
    assert said in line and "--confirm" in line
    assert _count(weigher) == before


def test_an_ordinary_weight_is_recorded(weigher: Keeper) -> None:
    """Without a question."""
    weigher.run("record", "weighed", "TUP=300g")
    assert weigher.json("weight", "show", "TUP")["mass_g"] == 300


def test_what_was_confirmed_is_doubted_no_more(weigher: Keeper) -> None:
    """It is noted in the same step, so undo takes both back."""
    before = _count(weigher)
    weigher.run("record", "weighed", "TUP=620g", "--confirm")
    assert weigher.json("weight", "doubts")["doubts"] == []
    with weigher.book() as book:
        (noted,) = book.events("weight.checked")
        assert noted.data["weighing"] == book.latest("weighed")["weighed"][noted.animal_id or 0].id
    weigher.run("undo", "--yes")
    assert _count(weigher) == before


def test_two_weights_a_minute_apart_that_differ_by_half(weigher: Keeper) -> None:
    """One of the two is wrong."""
    weigher.run("record", "weighed", "TUP=300g", "--at", "2026-03-05 10:00")
    again = ("record", "weighed", "TUP=460g", "--at", "2026-03-05 10:01")
    assert "within 1 min" in weigher.run(*again, ok=False).complaint(4)


def test_a_weight_before_hatching(weigher: Keeper) -> None:
    """Refused; confirmed it is a finding, and no check rests on it."""
    early = ("record", "weighed", "TUP=21g", "--at", "2024-06-01")
    assert "before Tup hatched" in weigher.run(*early, ok=False).complaint(4)
    weigher.run(*early, "--confirm")
    assert _codes(weigher) == []  # the last year is looked at
    weigher.run("animal", "change", "TUP", "--hatched", "2026-02-20")
    assert _codes(weigher) == ["weight.before-hatching"]


def test_an_import_with_a_slip_is_refused_whole(weigher: Keeper, tmp_path) -> None:  # type: ignore[no-untyped-def]
    """A slip among neighbours on both sides; nothing of the file is written."""
    file = tmp_path / "more.csv"
    rows = [f"2024-0{m}-20,weighed,MOT,{g}" for m, g in ((7, 40), (8, 41), (9, 140), (10, 42))]
    file.write_text("date,kind,animal,mass_g\n" + "\n".join(rows).replace("010", "10") + "\n")
    before = _count(weigher)
    line = weigher.run("import", str(file), ok=False).complaint(4)
    assert "Moth (MOT): 140 g is" in line
    assert _count(weigher) == before


def test_animals_swapped_in_one_command_are_noticed(weigher: Keeper) -> None:
    """Each typed weight fits the other's last one."""
    line = weigher.run("record", "weighed", "TUP=170g", "BEX=290g", ok=False).complaint(4)
    assert "near that of" in line


def test_a_correction_may_mend_a_slip(weigher: Keeper) -> None:
    """The right mass is recorded without a question."""
    weigher.run("record", "weighed", "TUP=620g", "--confirm")
    with weigher.book() as book:
        last = book.latest("weighed")["weighed"][book.animal("TUP").id].id
    weigher.run("correct", str(last), "mass=300g")
    assert weigher.json("weight", "show", "TUP")["mass_g"] == 300
