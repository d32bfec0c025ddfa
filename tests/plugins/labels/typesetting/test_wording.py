"""Hostile and foreign text becomes text that can be drawn."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.plugins.labels.typesetting.fonts import Face, metrics
from warmside.plugins.labels.typesetting.script import is_plain, join_arabic, visual_order
from warmside.plugins.labels.typesetting.wording import LONGEST_TEXT, REPLACEMENT, drawable

ANY = st.text(st.characters(), max_size=80)  # with surrogates, controls and all planes


@given(ANY, st.sampled_from(Face))
def test_every_character_left_has_a_glyph(text: str, face: Face) -> None:
    ready = drawable(text, face)
    assert all(metrics(ready.face).holds(c) for c in ready.text)
    assert ready.text == ready.text.strip() and "\n" not in ready.text
    ready.text.encode("utf-8")


@given(ANY)
def test_reordering_keeps_the_characters(text: str) -> None:
    ready = drawable(text, Face.REGULAR).text
    mirrored = str.maketrans("([{<«‹", ")]}>»›")
    assert sorted(visual_order(ready).translate(mirrored)) == sorted(ready.translate(mirrored))


@pytest.mark.parametrize(
    "text", ["<b>Bold</b>", "<img src=http://example.org/x>", "{{7*7}}", "&lt;"]
)
def test_markup_stands_as_it_was_typed(text: str) -> None:
    assert drawable(text, Face.BOLD).text == text


@pytest.mark.parametrize(
    "text", ["\x1b[31mRed\x1b[0m", "\x1b]0;title\x07Red", "R\x00e\x08d", "Red\x9b1m"]
)
def test_escapes_and_controls_are_taken_out_and_said(text: str) -> None:
    ready = drawable(text, Face.BOLD)
    assert ready.text == "Red" and ready.hidden


def test_direction_overrides_are_taken_out_and_said() -> None:
    ready = drawable("abc\u202edef\u2066x", Face.REGULAR)
    assert ready.text == "abcdefx" and ready.hidden


def test_what_cannot_be_drawn_is_replaced_and_named() -> None:
    ready = drawable("Liz 🦎\ud800", Face.REGULAR)
    assert ready.text == f"Liz {REPLACEMENT}{REPLACEMENT}"
    assert ready.lost == ("U+1F98E lizard", "U+D800 no character")


@pytest.mark.parametrize("text", ["♀ ♂ é Žluťoučký", "Λεωνίδας", "Ёжик Їжак", "½ × 3 °C – „x“"])
def test_latin_greek_cyrillic_and_signs_are_drawn_as_they_are(text: str) -> None:
    for face in Face:
        ready = drawable(text, face)
        assert (ready.text, ready.face, ready.lost) == (text, face, ())


def test_a_script_that_only_the_regular_face_holds_is_set_in_it() -> None:
    ready = drawable("سلام", Face.OBLIQUE)
    assert ready.face is Face.REGULAR and not ready.lost


def test_a_combining_accent_joins_its_letter() -> None:
    assert drawable("Zoe\u0308", Face.BOLD).text == "Zoë"


def test_an_endless_text_is_cut_with_a_mark() -> None:
    ready = drawable("x" * 1_000_000, Face.REGULAR)
    assert ready.cut and len(ready.text) == LONGEST_TEXT and ready.text.endswith("…")


def test_hebrew_reads_from_right_to_left_and_numbers_do_not() -> None:
    assert visual_order("שלום") == "םולש"
    assert visual_order("שלום 123") == "123 םולש"
    assert visual_order("Lea (שלום) 5") == "Lea (םולש) 5"
    assert is_plain("Lea ♀") and not is_plain("שלום")


def test_marks_stand_after_the_letter_they_are_on() -> None:
    bet, alef, marks = "\u05d1", "\u05d0", "\u05bc\u05b8"
    assert visual_order(bet + marks + alef) == alef + bet + marks
    assert visual_order(alef + "e\u0301") == "e\u0301" + alef
    assert visual_order(marks + alef) == alef + marks  # on nothing


def test_an_obligatory_ligature_is_made_through_a_mark() -> None:
    assert join_arabic("\u0644\u0651\u0627") == "\ufefb\u0651"  # lam, shadda, alef


def test_each_row_runs_as_the_whole_text_does() -> None:
    whole = "Aunt 555 (שלום)"
    assert visual_order("555 (שלום)", whole) == "555 (םולש)"
    assert visual_order("555 (שלום)") == "(םולש) 555"  # the row alone would run to the left
    assert visual_order("a, 12.", "שלום a, 12.") == ".a, 12"
    assert visual_order("a, 12.", "Moss a, 12.") == "a, 12."


def test_arabic_letters_join() -> None:
    assert join_arabic("بيت") == "\ufe91\ufef4\ufe96"
    assert join_arabic("سلام") == "\ufeb3\ufefc\ufee1"  # lam and alef are one sign
    assert join_arabic("Moss") == "Moss"
