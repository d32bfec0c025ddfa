"""Advice by stage and outcome, with its cautions; slough eaters."""

from __future__ import annotations

from datetime import date

import pytest

from warmside.api import sourced_rows
from warmside.plugins.shed.cycles.advice import Outcome, after_sheds, on_stage, retained_in_a_row
from warmside.plugins.shed.cycles.cycle import Stage
from warmside.plugins.shed.cycles.shipped import PACKAGE, eats_slough

GOOD = Outcome(date(2025, 5, 1), "one piece")
EYE = Outcome(date(2025, 6, 1), "pieces", ("spectacle",))
TOES = Outcome(date(2025, 6, 1), "pieces", ("toes",))


def text(advice: tuple[object, ...]) -> str:
    return " ".join(a.text for a in advice)  # type: ignore[attr-defined]


def test_opaque_means_humidity_rest_and_no_food_pressure() -> None:
    said = text(on_stage(Stage.OPAQUE))
    for words in ("humid hide", "Leave it alone", "No food pressure"):
        assert words in said


@pytest.mark.parametrize("stage", Stage)
def test_every_stage_has_advice(stage: Stage) -> None:
    assert on_stage(stage)
    assert on_stage(stage, eats_slough=True)


def test_a_late_shed_adds_calm_words() -> None:
    assert "no alarm" in text(on_stage(Stage.OPAQUE, late=True))


def test_a_shed_not_looked_at_asks_for_spectacles_tail_tip_and_pieces() -> None:
    said = text(after_sheds([Outcome(date(2025, 6, 1), None)]))
    for words in ("spectacles", "tail tip", "count the pieces"):
        assert words in said


def test_an_eaten_slough_is_no_missing_shed() -> None:
    assert "no missing shed" in text(on_stage(Stage.SHED, eats_slough=True))


def test_a_retained_spectacle_comes_first_and_is_never_pulled() -> None:
    advice = after_sheds([GOOD, EYE])
    assert advice[0].text.startswith("Never pull a retained spectacle")
    assert advice[0].caution
    assert "vet at once for swelling" in text(advice)
    assert "soak" in text(advice)


def test_toes_warn_of_rings() -> None:
    assert "cut off the blood" in text(after_sheds([TOES]))


def test_a_second_bad_shed_running_sends_to_a_vet_first() -> None:
    advice = after_sheds([GOOD, TOES, EYE])
    assert "two sheds running" in advice[0].text
    assert "two sheds running" not in text(after_sheds([EYE, GOOD, TOES]))
    assert retained_in_a_row([GOOD, TOES, EYE]) == 2
    assert retained_in_a_row([EYE, GOOD]) == 0


def test_a_good_shed_and_none_at_all() -> None:
    assert "back to normal" in text(after_sheds([EYE, GOOD]))
    assert "too dry" in text(after_sheds([Outcome(date(2025, 6, 1), "pieces")]))
    assert after_sheds([]) == ()


@pytest.mark.parametrize("name", ["priors", "windows", "slough_eaters", "advice"])
def test_every_reference_row_has_source_and_mark(name: str) -> None:
    rows = sourced_rows(PACKAGE, name)
    assert rows
    assert all(row.source.text for row in rows)


def test_geckos_by_family_genus_or_species_eat_their_slough() -> None:
    assert eats_slough(["Eublepharidae"])
    assert eats_slough(["", "Correlophus ciliatus"])
    assert not eats_slough(["Pythonidae", "Morelia viridis"])
    assert not eats_slough([])
