"""An answer that asks for one page gets one, and says what found no room on it."""

from __future__ import annotations

from pathlib import Path

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from pypdf import PdfReader

from faces.specimen import CARE, GROWTH, LOOK, WEIGHTS, zones
from warmside.core.answers.parts import Answer, Column, Section, Table, Words
from warmside.faces.paper.pdf import render_pdf


def pages(answer: Answer, folder: Path) -> tuple[list[str], tuple[str, ...]]:
    path = folder / "one.pdf"
    warnings = render_pdf(answer, LOOK, path, date_line="as of today")
    return [page.extract_text() for page in PdfReader(path).pages], warnings


def rows(count: int) -> Table:
    return Table(
        "r", (Column("name", "name"),), tuple((f"animal {n}",) for n in range(count)), "All"
    )


def test_what_fits_is_all_there_and_nothing_is_said(tmp_path: Path) -> None:
    found, warnings = pages(Answer("Care", (WEIGHTS, CARE), page="one"), tmp_path)
    assert len(found) == 1
    assert warnings == ()
    assert "left out" not in found[0]


def test_parts_without_room_are_named_on_the_page_and_as_a_warning(tmp_path: Path) -> None:
    sections = (Section("Curves", (GROWTH, zones(), zones(4))), Section("End", (Words("the end"),)))
    (page,), warnings = pages(Answer("Care", (WEIGHTS,), sections, page="one"), tmp_path)
    assert "Mass of a made-up skink" in page
    assert "left out: Zones of a box" in page
    assert warnings == ("left out to fit on one page: Zones of a box; Zones of a box",)
    assert page.index("Curves") < page.index("the end")


def test_a_section_of_which_nothing_fits_leaves_no_title(tmp_path: Path) -> None:
    words = tuple(Words(f"paragraph {n} " + "word " * 60) for n in range(20))
    section = Section("Not There", (zones(), zones()))
    (page,), _ = pages(Answer("Care", words, (section,), page="one"), tmp_path)
    assert "Not There" not in page


def test_sections_of_words_stand_side_by_side_and_those_without_room_are_named(
    tmp_path: Path,
) -> None:
    short = tuple(Section(f"Short {n}", (Words(f"told {n}"),)) for n in range(20))
    (page,), warnings = pages(Answer("Care", (), short, page="one"), tmp_path)
    assert warnings == () and all(f"told {n}" in page for n in range(20))
    long = tuple(Section(f"Long {n}", (Words("word " * 150),)) for n in range(12))
    (page,), (warning,) = pages(Answer("Care", (), long, page="one"), tmp_path)
    shown = [n for n in range(12) if f"Long {n}\n" in page.partition("left out:")[0]]
    assert shown == list(range(len(shown))) and 3 < len(shown) < 12
    assert warning.startswith(f"left out to fit on one page: Long {len(shown)}; ")


def test_a_long_table_is_cut_and_the_rest_counted(tmp_path: Path) -> None:
    (page,), (warning,) = pages(Answer("Long", (rows(150),), page="one"), tmp_path)
    shown = page.count("animal ")
    assert 20 < shown < 150
    assert warning == f"left out to fit on one page: {150 - shown} of 150 rows of All"


@settings(
    deadline=None, max_examples=20, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(st.lists(st.sampled_from([3, 40, 200, 900, 4000]), max_size=14), st.booleans())
def test_it_is_one_page_whatever_is_in_it(
    tmp_path: Path, lengths: list[int], sectioned: bool
) -> None:
    words = tuple(Words("word " * length) for length in lengths)
    parts = (*words, rows(30), WEIGHTS)
    answer = Answer("Many", page="one")
    section = (Section("All of it", parts),)
    answer = replace(answer, sections=section) if sectioned else replace(answer, parts=parts)
    found, _ = pages(answer, tmp_path)
    assert len(found) == 1
