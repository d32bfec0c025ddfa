"""Text is measured and broken in terminal columns."""

from __future__ import annotations

import subprocess
import sys

import pytest
import wcwidth
from hypothesis import given
from hypothesis import strategies as st

from warmside.faces.terminal.visible import visible
from warmside.faces.terminal.widths import _ONE_COLUMN_EACH, clip, hanging, pad, text_width, wrap

SHOWN = st.text(st.characters(codec=None)).map(visible)


@pytest.mark.parametrize(
    ("text", "columns"),
    [
        ("Ember", 5),
        ("Ähre", 4),
        ("A\u0308hre", 4),
        ("月光", 4),
        ("ﾔﾓﾘ", 3),
        ("ＡＢ", 4),
        ("🦎", 2),
        ("❤\ufe0f", 2),
        ("", 0),
    ],
)
def test_widths_follow_east_asian_width(text: str, columns: int) -> None:
    """Classes W, F, H, N and Na of Unicode Standard Annex #11, published; chosen by hand."""
    assert text_width(text) == columns


def test_what_is_taken_for_one_column_each_is_so_after_wcwidth() -> None:
    """The whole basic plane against the wcwidth package, whose tables are those of Unicode."""
    signs = [chr(code) for code in range(0x20, 0x10000) if not 0xD800 <= code < 0xE000]
    quick = [sign for sign in signs if _ONE_COLUMN_EACH.fullmatch(sign)]
    assert len(quick) > 2000
    assert {wcwidth.wcwidth(sign) for sign in quick} == {1}


def test_what_a_screen_shows_every_day_needs_no_tables() -> None:
    code = (
        f"import sys; sys.path[:0] = {sys.path!r};"
        "from warmside.faces.terminal.widths import text_width;"
        "text_width('Échse ♀ 31.5 °C – 12 × g² · … ⠤⠤ █ ≥'); assert 'wcwidth' not in sys.modules;"
        "text_width('月'); assert 'wcwidth' in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


def test_words_are_kept_whole_where_they_fit() -> None:
    assert wrap("one piece shed today", 10) == ["one piece", "shed today"]


def test_a_word_longer_than_the_line_is_cut() -> None:
    assert wrap("a abcdefgh", 4) == ["a", "abcd", "efgh"]


def test_a_word_longer_than_the_line_is_cut_at_a_hyphen_first() -> None:
    assert wrap("a gastric-biopsy-histology", 17) == ["a", "gastric-biopsy-", "histology"]
    assert wrap("-abcdefgh", 4) == ["-abc", "defg", "h"]


def test_a_word_without_end_takes_no_time_by_its_square() -> None:
    """A stranger's file may hold one; each line would look at all that is left of it."""
    assert wrap("x" * 1_000_000, 20) == ["x" * 20] * 50_000


def test_line_feeds_break_and_blank_lines_stay() -> None:
    assert wrap("one\n\ntwo", 10) == ["one", "", "two"]


def test_later_lines_hang_in() -> None:
    assert hanging("fed two large mice", 12) == ["fed two", "  large mice"]


def test_a_wide_sign_is_never_halved() -> None:
    assert wrap("月月月", 3) == ["月", "月", "月"]
    assert clip("月月月", 4) == "月…"


def test_filling_goes_by_columns() -> None:
    assert pad("月", 4) + "|" == "月  |"
    assert pad("月", 4, right=True) == "  月"


@given(SHOWN, st.integers(2, 60))
def test_no_line_is_wider_and_no_sign_is_lost(text: str, width: int) -> None:
    lines = wrap(text, width)
    assert all(text_width(line) <= width for line in lines)
    assert "".join(lines).replace(" ", "") == text.replace("\n", "").replace(" ", "")


@given(SHOWN, st.integers(1, 60))
def test_clipped_text_fits(text: str, width: int) -> None:
    assert text_width(clip(text, width)) <= width
