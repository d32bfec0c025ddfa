"""The PDF report holds every word of the answer, on as many A4 pages as it takes.

Read back with pypdf, an independent reader; paper size after ISO 216 (A4 is 210 mm by 297 mm).
"""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from pypdf import PdfReader

from warmside.core.answers.drawings import Disc
from warmside.core.answers.parts import (
    Answer,
    Chart,
    Column,
    Drawing,
    Fact,
    Kind,
    Line,
    Section,
    Span,
    Table,
    Timeline,
    TimelineRow,
    Tone,
    Words,
)
from warmside.core.values.basis import Basis, Estimate, Mark, Source
from warmside.core.values.errors import BadInput
from warmside.core.values.quantities import Display
from warmside.core.values.units import Unit
from warmside.faces.look import Look
from warmside.faces.paper.pdf import render_pdf

LOOK = Look(80, Display.METRIC, ZoneInfo("Europe/Vienna"))
NEED = Estimate(
    8.1, 6.9, 9.4, Unit.ENERGY_RATE, Basis("a rule", Source("a table", Mark.INVENTED), (1,))
)
COLUMNS = (Column("name", "name"), Column("mass", "mass", Unit.MASS), Column("note", "note"))
ANSWER = Answer(
    "Report on Ember ♀",
    (
        Fact("species", "species", "Tiliqua gigas", Kind.LATIN),
        Fact("need", "daily need", NEED, Unit.ENERGY_RATE),
        Words("<b>plain</b> & <img src='http://example.invalid/x.png'/>"),
        Words("ask a vet", Tone.CAUTION),
    ),
    (Section("Weights", (Table("w", COLUMNS, (("Ember", 612.0, "calm"),), title="All"),)),),
)


def written(answer: Answer, folder: Path, look: Look = LOOK) -> tuple[list[str], tuple[str, ...]]:
    """The text of each page, and the warnings."""
    path = folder / "report.pdf"
    warnings = render_pdf(answer, look, path, date_line="as of 2025-06-02")
    return [page.extract_text() for page in PdfReader(path).pages], warnings


def test_every_word_is_on_the_page(tmp_path: Path) -> None:
    (page,), warnings = written(ANSWER, tmp_path)
    for words in (
        "Report on Ember ♀",
        "as of 2025-06-02",
        "Tiliqua gigas",
        "8.1 (6.9–9.4) kJ/day",
        "a rule; a table [invented example]; from 1 record",
        "<b>plain</b> & <img src='http://example.invalid/x.png'/>",
        "caution: ask a vet",
        "Weights",
        "612 g",
        "page 1",
    ):
        assert words in page
    assert warnings == ()


def test_the_paper_is_a4_and_fonts_are_embedded(tmp_path: Path) -> None:
    written(ANSWER, tmp_path)
    reader = PdfReader(tmp_path / "report.pdf")
    page = reader.pages[0]
    assert float(page.mediabox.width) == pytest.approx(210 / 25.4 * 72, abs=0.01)
    assert float(page.mediabox.height) == pytest.approx(297 / 25.4 * 72, abs=0.01)
    assert reader.metadata is not None
    assert reader.metadata.title == "Report on Ember ♀"
    fonts = page["/Resources"]["/Font"].values()  # type: ignore[index]
    used = [font.get_object() for font in fonts]
    embedded = [f["/BaseFont"] for f in used if "/FontFile2" in f.get("/FontDescriptor", {})]
    assert any("DejaVuSans-Oblique" in name for name in embedded)
    assert all("DejaVu" in f["/BaseFont"] or "Helvetica" in f["/BaseFont"] for f in used)


def test_latin_names_are_oblique(tmp_path: Path) -> None:
    written(ANSWER, tmp_path)
    found = []

    def visit(text: str, _cm: object, _tm: object, font: dict[str, str] | None, _s: float) -> None:
        if "Tiliqua" in text and font:
            found.append(font["/BaseFont"])

    PdfReader(tmp_path / "report.pdf").pages[0].extract_text(visitor_text=visit)
    assert found
    assert all("Oblique" in name for name in found)


def test_a_long_table_repeats_its_header_on_every_page(tmp_path: Path) -> None:
    rows = tuple((f"animal {i}", float(i), "a note") for i in range(150))
    table = Table("t", COLUMNS, rows)
    pages, _ = written(Answer("Long", (table,)), tmp_path)
    assert len(pages) > 2
    for number, page in enumerate(pages, 1):
        assert "name" in page
        assert "mass" in page
        assert f"page {number}" in page
    whole = "\n".join(pages)
    assert all(f"animal {i}\n" in whole for i in range(150))


def test_a_cell_higher_than_a_page_goes_on_over_pages(tmp_path: Path) -> None:
    rows = (("Ember", 1.0, "word " * 3000),)
    pages, _ = written(
        Answer(parts=(Table("t", COLUMNS, rows), Fact("f", "f", "x" * 9000))), tmp_path
    )
    assert sum(page.count("word") for page in pages) == 3000


def test_signs_the_font_lacks_are_marked_and_reported(tmp_path: Path) -> None:
    (page,), warnings = written(Answer("Ember 🦎", (Words("月 and ♀"),)), tmp_path)
    assert "▯ and ♀" in page
    assert warnings == ("the page font lacks U+6708, U+1F98E; shown as ▯",)


def test_the_same_answer_gives_the_same_bytes(tmp_path: Path) -> None:
    for name in ("one.pdf", "two.pdf"):
        render_pdf(ANSWER, LOOK, tmp_path / name)
    assert (tmp_path / "one.pdf").read_bytes() == (tmp_path / "two.pdf").read_bytes()


def test_drawings_are_on_the_page_and_a_tall_timeline_is_split(tmp_path: Path) -> None:
    day = date(2025, 3, 1)
    x = float(day.toordinal())
    chart = Chart("c", "Growth", "day", "mass", Unit.MASS, (Line("mass", (x, x + 9), (1.0, 2.0)),))
    spans = (Span(day, day, "a label that needs a line of its own"),)
    rows = tuple(TimelineRow(f"row {i}", spans) for i in range(40))
    timeline = Timeline("t", "Care", day, day + timedelta(30), rows)
    pages, _ = written(Answer(parts=(chart, timeline)), tmp_path)
    whole = "\n".join(pages)
    assert "Growth" in whole
    assert all(f"row {i}\n" in whole for i in range(40))


def test_a_place_that_cannot_be_written_is_said(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match="cannot write"):
        render_pdf(ANSWER, LOOK, tmp_path / "no such folder" / "x.pdf")


def test_an_empty_answer_is_a_page(tmp_path: Path) -> None:
    pages, _ = written(Answer(), tmp_path)
    assert len(pages) == 1


TEXT = st.text(st.characters(codec=None), max_size=60)


@settings(
    deadline=None, max_examples=30, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(st.lists(TEXT, min_size=3, max_size=3))
def test_any_text_gives_a_readable_pdf(tmp_path: Path, texts: list[str]) -> None:
    title, name, note = texts
    table = Table("t", tuple(replace(c, title=title) for c in COLUMNS), ((name, 1.0, note),) * 2)
    parts = (Words(note), Words(note, Tone.CAUTION), Fact("f", name, note), table)
    pages, _ = written(Answer(title, parts, (Section(name, parts),)), tmp_path)
    assert "page 1" in pages[0]


def test_a_list_to_work_through_has_a_box_for_each_task_and_room_to_write(tmp_path: Path) -> None:
    columns = (Column("what", "what"), Column("who", "who"))
    rows = (("weigh", "Ember"), ("feed", "Moss"), ("mite check", "Fern"))
    tasks = Table("t", columns, rows, breaks=((2, "wash hands"),), ticks=True)
    (page,), _ = written(Answer("Round", (tasks,)), tmp_path)
    assert page.count("☐") == 3
    assert page.count("noted") == 1, "the heading is not said again behind a break"
    assert page.index("Moss") < page.index("wash hands") < page.index("Fern")
    (plain,), _ = written(Answer("Round", (replace(tasks, ticks=False),)), tmp_path)
    assert "☐" not in plain and "noted" not in plain


@pytest.mark.parametrize(("size", "turned"), [((300, 100), True), ((100, 200), False)])
def test_a_page_lies_where_a_drawing_as_a_whole_is_larger_so(
    tmp_path: Path, size: tuple[float, float], turned: bool
) -> None:
    drawing = Drawing("d", "", *size, "mm", (Disc((20, 20), 10),), (), whole=True)
    path = tmp_path / "wide.pdf"
    render_pdf(Answer("Wide", (drawing,)), LOOK, path)
    (page,) = PdfReader(path).pages
    assert (page.mediabox.width > page.mediabox.height) == turned
