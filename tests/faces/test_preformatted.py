"""Lines whose columns matter keep them, however short the width."""

from __future__ import annotations

from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace
from pypdf import PdfReader

from faces.specimen import LOOK, PLAN
from warmside.core.answers.parts import Answer, Tone, Words
from warmside.faces.paper.pdf import render_pdf
from warmside.faces.preformatted import panels, pre_lines
from warmside.faces.terminal.text import render_text
from warmside.faces.terminal.widths import text_width

LINES = st.lists(st.text("ab |─月", max_size=90).map(str.rstrip), min_size=1, max_size=5)


def test_the_terminal_shows_them_as_they_are() -> None:
    assert render_text(Answer(parts=(Words(PLAN, pre=True),)), LOOK) == PLAN
    told = render_text(Answer(parts=(Words(PLAN, Tone.CAUTION, pre=True),)), LOOK)
    assert told == f"caution:\n{PLAN}"


def test_what_is_wider_goes_on_below_with_its_columns() -> None:
    assert panels(["abcdef", "uv", "123456"], 4) == [
        "abcd", "uv", "1234", "", "(to", "ef", "", "56",
    ]  # fmt: skip


@given(LINES, st.integers(20, 60))
def test_panels_fit_and_side_by_side_give_the_lines_back(lines: list[str], width: int) -> None:
    shown = panels(lines, width)
    assert all(text_width(line) <= width for line in shown)
    height = len(lines)
    again = [""] * height
    for start in range(0, len(shown), height + 2):
        for number, line in enumerate(shown[start : start + height]):
            again[number] += line
    assert ["".join(line.split()) for line in again] == ["".join(x.split()) for x in lines]


def test_paper_sets_them_in_letters_of_one_width(tmp_path: Path) -> None:
    parts = (Words("x" * 130, pre=True), Words("y" * 300, pre=True))
    render_pdf(Answer(parts=parts), LOOK, tmp_path / "a.pdf")
    faces: dict[str, str] = {}

    def visit(
        text: str, _cm: object, _tm: object, font: dict[str, str] | None, _size: float
    ) -> None:
        faces.update({sign: font["/BaseFont"] for sign in text if font})

    text = PdfReader(tmp_path / "a.pdf").pages[0].extract_text(visitor_text=visit)
    assert "x" * 130 in text
    assert text.count("y") == 300
    assert "(to the right of it)" in text
    assert all("Mono" in faces[sign] for sign in "xy")


def test_control_signs_are_made_visible_here_too() -> None:
    assert pre_lines("a\x1b[2J\nb  ") == ["a\\x1b[2J", "b"]
    assert "\x1b" not in render_text(Answer(parts=(Words("\x1b", pre=True),)), replace(LOOK))
