"""No text that a keeper recorded can act on a terminal or hide what is there."""

from __future__ import annotations

import json
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.faces.terminal.visible import json_safe, visible, visible_line

ANY_TEXT = st.text(st.characters(codec=None))
KEPT = "\n\u200c\u200d"


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("\x1b[31mred", "\\x1b[31mred"),
        ("\x9b31m", "\\x9b31m"),
        ("a\u202eb\u2066c\u2069", "a\\u202eb\\u2066c\\u2069"),
        ("bad \udc80 byte", "bad \\udc80 byte"),
        ("bell\a, back\b, nul\0", "bell\\x07, back\\x08, nul\\x00"),
        ("one\r\ntwo\rthree", "one\ntwo\\x0dthree"),
        ("tab\there", "tab here"),
        ("\U000e0041", "\\U000e0041"),
        ("♀ × – Ähre 月 🦎", "♀ × – Ähre 月 🦎"),
    ],
)
def test_dangerous_characters_become_visible_escapes(text: str, shown: str) -> None:
    assert visible(text) == shown


@given(ANY_TEXT)
def test_nothing_of_the_control_or_surrogate_categories_is_left(text: str) -> None:
    """Unicode general categories from the standard's own database, as Python ships it."""
    left = {unicodedata.category(char) for char in visible(text) if char not in KEPT}
    assert not left & {"Cc", "Cs", "Zl", "Zp"}


@given(ANY_TEXT)
def test_no_direction_control_is_left(text: str) -> None:
    """Bidi classes after Unicode Standard Annex #9."""
    explicit = {"LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI"}
    assert not {unicodedata.bidirectional(char) for char in visible(text)} & explicit


@given(ANY_TEXT)
def test_visible_text_can_be_encoded_and_is_stable(text: str) -> None:
    shown = visible(text)
    assert shown.encode("utf-8").decode("utf-8") == shown
    assert visible(shown) == shown
    assert "\n" not in visible_line(text)


@given(ANY_TEXT)
def test_json_keeps_the_value_while_it_becomes_harmless(text: str) -> None:
    written = json_safe(json.dumps(text, ensure_ascii=False))
    assert json.loads(written.encode("utf-8")) == json.loads(json.dumps(text))
    assert not {unicodedata.category(char) for char in written} & {"Cc", "Cs"}
