"""Vets of the address book."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from warmside.api import BadInput
from warmside.plugins.health.vets.vet import NO, YES, Vet, check, to_call

ASKED = Vet(1, "Night clinic", emergency="0800 1")
KNOWN = Vet(2, "Green practice", "01 234", reptiles=YES)
BOTH = replace(KNOWN, id=3, name="Mill Lane", emergency="0900", hours="Mon 9-12", address="Lane 3")
NONE = Vet(4, "Dog doctor", "77", reptiles=NO)


def test_who_treats_reptiles_comes_first_with_an_emergency_number_before_all() -> None:
    assert [v.id for v in to_call([ASKED, KNOWN, NONE, BOTH])] == [3, 2, 1]


def test_the_line_says_how_to_reach_them_and_what_is_not_known() -> None:
    assert BOTH.words == (
        "vet: Mill Lane; treats reptiles; telephone 01 234; in an emergency 0900; "
        "open Mon 9-12; Lane 3"
    )
    assert "ask first whether they treat reptiles" in ASKED.words


@pytest.mark.parametrize(
    ("wrong", "line"),
    [
        (replace(KNOWN, name=""), "needs a name"),
        (Vet(5, "Mute"), "Mute needs a number to call"),
        (replace(KNOWN, telephone="none"), "has no digit"),
        (replace(KNOWN, reptiles="maybe"), "it is one of: yes, no, not known"),
        (replace(KNOWN, address="x" * 121), "longer than 120 letters"),
    ],
)
def test_what_cannot_be_called_is_refused(wrong: Vet, line: str) -> None:
    with pytest.raises(BadInput, match=line):
        check(wrong)
