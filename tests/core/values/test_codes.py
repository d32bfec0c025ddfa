"""Codes are short, printable on a label and suggested from the name."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.values.codes import RULE, checked, suggested
from warmside.core.values.errors import BadInput


@pytest.mark.parametrize("code", ["EMB", "emb", " V-02 ", "7", "A" * 12])
def test_a_code_is_upper_case_letters_digits_and_hyphens(code: str) -> None:
    assert checked(code) == code.strip().upper()


@pytest.mark.parametrize("code", ["", " ", "-A", "A B", "Ä", "A" * 13, "A/B", "EMB\n2", "蛇"])
def test_anything_else_is_no_code(code: str) -> None:
    with pytest.raises(BadInput, match="is no code: use 1 to 12 letters"):
        checked(code)


@pytest.mark.parametrize(
    ("name", "code"),
    [("Ember", "EMB"), ("Öhi", "OHI"), ("a b c d", "ABC"), ("X", "X"), ("蛇", "A"), ("É.T.", "ET")],
)
def test_a_code_is_suggested_from_the_name(name: str, code: str) -> None:
    assert suggested(name, ()) == code


def test_a_taken_code_gets_the_next_free_number() -> None:
    assert suggested("Ember", {"EMB"}) == "EMB2"
    assert suggested("Ember", {"EMB", "EMB2", "EMB3"}) == "EMB4"
    assert suggested("蛇", {"E"}, "E") == "E2"


@given(st.text(), st.sets(st.sampled_from(["A", "A2", "AB", "ABC", "ABC2"])))
def test_a_suggestion_is_a_free_code_whatever_the_name(name: str, taken: set[str]) -> None:
    code = suggested(name, taken)
    assert code not in taken
    assert RULE.fullmatch(code)
    assert checked(code) == code
