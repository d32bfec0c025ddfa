"""What the sheets work out of events: signs that stand, meals, the course of the mass."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from warmside.core.asking.sheets.meals import meals
from warmside.core.asking.sheets.standing_signs import seen_signs
from warmside.core.asking.sheets.weights import course
from warmside.core.record.entities import Event

DAY = date(2026, 3, 1)


def events(kind: str, *data: dict[str, Any]) -> list[Event]:
    """An event a day, in this order."""
    return [
        Event(n, kind, 1, None, DAY + timedelta(days=n), None, said, "", 1, None)
        for n, said in enumerate(data)
    ]


def sign(state: str, word: str = "wheezing") -> dict[str, Any]:
    return {"sign": word, "state": state}


def test_a_sign_seen_again_once_it_was_gone_begins_anew() -> None:
    seen, before = seen_signs(
        events("sign", sign("seen"), sign("gone"), sign("seen"), sign("seen"))
    )
    assert (seen.first, seen.times, seen.gone) == (DAY + timedelta(days=2), 2, None)
    assert before.gone == DAY + timedelta(days=1)


def test_a_sign_that_was_none_is_not_told() -> None:
    assert seen_signs(events("sign", sign("seen"), sign("not so"))) == []


@given(st.lists(st.tuples(st.sampled_from(["seen", "gone", "not so"]), st.sampled_from("ab"))))
def test_a_sign_stands_exactly_if_its_last_word_is_that_it_was_seen(
    said: list[tuple[str, str]],
) -> None:
    found = seen_signs(events("sign", *(sign(state, word) for state, word in said)))
    last = {word: state for state, word in said}
    standing = [s.sign for s in found if s.gone is None]
    assert sorted(standing) == sorted(w for w, state in last.items() if state == "seen")
    assert all(s.first <= s.last and s.times >= 1 for s in found)


OUTCOMES = ("taken", "part taken", "refused", "regurgitated")


@given(st.lists(st.sampled_from(OUTCOMES)), st.integers(0, 12))
def test_meals_are_counted_each_once(outcomes: list[str], first: int) -> None:
    fed = events("fed", *({"outcome": outcome} for outcome in outcomes))
    found = meals(fed, DAY + timedelta(days=first))
    assert sum(found.outcomes.values()) == len(outcomes[first:])
    later = outcomes[found.last.id + 1 :] if found.last else outcomes
    assert "taken" not in later and "part taken" not in later
    assert found.refused_since == later.count("refused")


@given(st.lists(st.floats(1, 10_000), min_size=1))
def test_the_loss_is_never_a_gain(masses: list[float]) -> None:
    found = course(events("weighed", *({"mass_g": mass} for mass in masses)))
    assert found is not None
    assert found.last.mass_g == masses[-1] and found.heaviest.mass_g == max(masses)
    assert 0 <= found.loss_percent < 100


def test_a_loss_is_a_share_of_the_heaviest() -> None:
    found = course(events("weighed", {"mass_g": 500.0}, {"mass_g": 450.0}))
    assert found is not None and round(found.loss_percent, 9) == 10.0
    assert course([]) is None
