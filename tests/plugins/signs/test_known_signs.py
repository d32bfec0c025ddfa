"""The list of signs, and which of them a note names."""

from __future__ import annotations

import pytest

from warmside.api import Level, Mark
from warmside.core.kinds.sign_words import SIGNS, SYNONYMS
from warmside.plugins.signs.seen.condition_steps import condition_rows, step_words
from warmside.plugins.signs.seen.known_signs import known_signs
from warmside.plugins.signs.seen.notes import signs_in


def test_every_sign_that_can_be_recorded_has_its_level_and_care() -> None:
    known = known_signs()
    assert tuple(known) == SIGNS
    assert {a: s.word for s in known.values() for a in s.also if a != s.word} == SYNONYMS
    assert all(s.care and s.source.text for s in known.values())
    assert {s.source.mark for s in known.values()} <= {Mark.SECONDARY, Mark.COMMON_PRACTICE}


@pytest.mark.parametrize(
    "word",
    [
        # called an emergency or urgent by the source itself: Pet Emergency Academy, When to get
        # your reptile to a veterinarian (a first-aid course)
        "seizure",
        "limp",
        "bleeding",
        "bitten",
        "broken bone or shell",
        "tissue out of the vent",
        "straining",
        "bloated",
        "overheated",
        "too cold",
        "swallowed something",
        "poisoned",
    ],
)
def test_what_the_source_calls_an_emergency_is_act_now(word: str) -> None:
    assert known_signs()[word].level is Level.ACT_NOW


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("wheezing, bubbles at mouth", ["noisy breathing"]),
        ("sits with Open Mouth and wheezes", ["breathing with open mouth", "noisy breathing"]),
        ("found three mites at the vent", ["mites"]),
        ("threw up the mouse", ["regurgitated"]),
        ("some blood on the toe", ["bleeding"]),
        ("no mites, eats well", []),
        ("the swelling is gone", []),
        ("checked for mites: nothing, no wheezing either", []),
        ("hissed with open mouth when I lifted the hide", []),
        ("sits with open mouth. Hissed with joy of battle", ["breathing with open mouth"]),
        ("tail twitching before it struck", []),
        ("trembling all over", ["trembling"]),
        ("bit me, a little blood on my finger", []),
        ("burnt out bulb replaced", []),
        ("burnt by the bulb", ["burnt skin"]),
        ("swollen, and left its meal", ["lump or swelling"]),
        ("swollen eye since yesterday", ["eyes swollen or shut"]),
        ("swollen eye, mouth open", ["breathing with open mouth", "eyes swollen or shut"]),
        ("basking with its mouth open", []),
        ("never saw it straining", []),
        ("shed in one piece, lively", []),
        ("took the mouse at once, bit the tongs", []),
        ("limping through the lumpy substrate", ["not using a limb"]),
        ("", []),
    ],
)
def test_a_note_names_a_sign_unless_it_denies_it(text: str, words: list[str]) -> None:
    assert [n.sign.word for n in signs_in(text)] == words


def test_each_build_has_five_steps() -> None:
    assert set(condition_rows()) == {"snake", "lizard", "tortoise", "turtle"}
    assert all(len(row["steps"]) == 5 for row in condition_rows().values())
    assert "tail" in step_words("lizard", 1)
    assert step_words("", 3) == ""
