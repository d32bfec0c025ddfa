"""Pictures in every face: themselves where a face can show them, else a line each."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from pypdf import PdfReader

from invented_pictures import jpeg, picture
from warmside.core.answers.parts import Answer
from warmside.core.answers.strips import Shot, Strip
from warmside.core.values.quantities import Display
from warmside.faces.look import Look
from warmside.faces.paper.pdf import render_pdf
from warmside.faces.terminal.text import render_text
from warmside.faces.web.html import render_html

LOOK = Look(40, Display.METRIC, ZoneInfo("UTC"))
DAY = date(2026, 3, 1)
DIGESTS = [letter * 64 for letter in "abcd"]


def shot(number: int, kind: str = "jpg", *words: str) -> Shot:
    size = (None, None) if kind == "pdf" else (48, 36)
    return Shot(number, DAY, DIGESTS[number], kind, 1_500_000, *size, words)


STRIP = Strip("s", "Wound", (shot(0, "jpg", "2026-03-01", "calm"), shot(1), shot(2, "pdf")))


@pytest.fixture
def places(tmp_path: Path) -> Iterator[tuple[Path, ...]]:
    """Two folders: the first picture's preview in one, the second picture itself in the other."""
    folders = (tmp_path / "own", tmp_path / "copies")
    for folder in folders:
        folder.mkdir()
    (folders[0] / f"{DIGESTS[0]}.small.jpg").write_bytes(jpeg(picture(40, 30)))
    (folders[1] / f"{DIGESTS[1]}.jpg").write_bytes(jpeg(picture(20, 60)))
    yield folders


def pictures_in(path: Path) -> list[tuple[int, int]]:
    return [image.image.size for page in PdfReader(path).pages for image in page.images]  # type: ignore[union-attr]


def test_a_page_shows_them_from_whichever_folder_has_them(
    places: tuple[Path, ...], tmp_path: Path
) -> None:
    look = Look(40, Display.METRIC, ZoneInfo("UTC"), pictures=places)
    (places[1] / f"{DIGESTS[2]}.pdf").write_bytes(b"<< /Type /Pages /Kids [] /Count 3 >>")
    render_pdf(Answer("Strip", (STRIP,)), look, tmp_path / "a.pdf")
    assert sorted(pictures_in(tmp_path / "a.pdf")) == [(20, 60), (40, 30)]
    text = PdfReader(tmp_path / "a.pdf").pages[0].extract_text()
    assert "picture 0" in text and "calm" in text and "PDF, 3 pages, 1.5 MB" in text


@pytest.mark.parametrize("content", [None, b"", b"no picture", jpeg()[:50]])
def test_a_file_that_is_missing_or_broken_is_said_on_the_page(
    content: bytes | None, tmp_path: Path
) -> None:
    if content is not None:
        (tmp_path / f"{DIGESTS[0]}.jpg").write_bytes(content)
    look = Look(40, Display.METRIC, ZoneInfo("UTC"), pictures=(tmp_path,))
    render_pdf(Answer("Strip", (STRIP,)), look, tmp_path / "a.pdf")
    assert "its file is missing here" in PdfReader(tmp_path / "a.pdf").pages[0].extract_text()


def test_a_terminal_tells_each_in_lines_that_fit() -> None:
    text = render_text(Answer("", (STRIP,)), LOOK)
    assert text.splitlines() == [
        "Wound",
        "picture 0: 2026-03-01; calm",
        "picture 1: 1.5 MB",
        "paper 2: 1.5 MB",
    ]
    long = Strip("s", "", (shot(0, "jpg", "a note " * 20),))
    lines = render_text(Answer("", (long,)), LOOK).splitlines()
    assert all(len(line) <= 40 for line in lines) and lines[1].startswith("  ")


def test_a_web_page_shows_them_where_they_have_an_address() -> None:
    address = lambda shot: f"/p/{shot.number}" if shot.number else None  # noqa: E731
    page = render_html(Answer("", (STRIP,)), LOOK, picture=address)
    assert '<img src="/p/1?small=1" alt="picture 1" loading="lazy">' in page
    assert 'href="/p/2"' in page and "/p/0" not in page and "calm" in page
    assert "<img" not in render_html(Answer("", (STRIP,)), LOOK)
