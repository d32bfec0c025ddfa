"""Which line of any plugin goes where on a label, and which state a plugin's words mean."""

from __future__ import annotations

import pytest

from warmside.core.plugins.hook_values import LabelLine
from warmside.plugins.labels.content.slots import (
    NOTED,
    SLOTS,
    USED_ON,
    note_key,
    slot_of,
    texts_for,
    told,
)
from warmside.plugins.labels.reading.choosing import says_state


@pytest.mark.parametrize(
    ("key", "slot"),
    [
        ("quarantine.since", "since"),
        ("other.end", "end"),
        ("other.earliest-end", "end"),
        ("feeding.next-meal", "meal"),
        ("shed.next", None),
        ("since", "since"),
    ],
)
def test_the_last_word_of_a_key_says_where_a_line_goes(key: str, slot: str | None) -> None:
    assert slot_of(key) == slot


def test_the_words_that_a_label_says_itself_are_not_said_twice() -> None:
    since = [LabelLine("a.since", "quarantine since 2026-01-05")]
    assert texts_for("since", since) == ["2026-01-05"]
    assert texts_for("end", [LabelLine("a.end", "earliest end 2026-04-05")]) == ["2026-04-05"]
    assert texts_for("end", [LabelLine("a.end", "2026-04-05")]) == ["2026-04-05"]


def test_the_keepers_note_comes_before_a_plugins_line_but_do_nots_add_up() -> None:
    lines = [LabelLine("feeding.diet", "insects"), LabelLine(note_key("feeding"), "by hand")]
    assert texts_for("feeding", lines) == ["by hand"]
    assert texts_for("feeding", lines[:1]) == ["insects"]
    donts = [LabelLine("shed.do-not", "handle"), LabelLine(note_key("donot"), "whistle; handle")]
    assert texts_for("donot", donts) == ["handle", "whistle"]


def test_names_stand_before_texts_only_where_animals_differ() -> None:
    assert told({"Ember": ["Monday"]}) == "Monday"
    assert told({"Ember": ["Monday"], "Moss": ["Monday"]}) == "Monday"
    assert told({"Ember": ["Monday"], "Moss": []}) == "Ember: Monday"
    assert told({"Ember": ["Mon", "Thu"], "Moss": ["Fri"]}) == "Ember: Mon, Thu; Moss: Fri"
    assert told({}) == ""


def test_each_slot_is_used_somewhere_and_each_note_has_a_slot() -> None:
    assert set(SLOTS) == set(USED_ON) and set(NOTED) <= set(SLOTS)
    assert all(slot_of(note_key(slot)) == slot for slot in NOTED)


@pytest.mark.parametrize(
    ("state", "said"),
    [
        ("quarantine", True),
        ("Quarantined", True),
        ("general", True),
        ("day 3", True),
        ("sick", False),
        ("q", False),
        ("", False),
        ("quarantined sick", False),
    ],
)
def test_a_state_is_found_in_a_plugins_words(state: str, said: bool) -> None:
    assert says_state(state, ("quarantine", "general", "quarantine, day 3 of 90")) is said
