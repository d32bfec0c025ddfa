"""Sheets as PDF: what a person reads on them."""

from __future__ import annotations

import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from warmside.core.values.errors import BadInput
from warmside.plugins.labels.content.animals import Occupant, enclosure_label
from warmside.plugins.labels.content.label import Label, LabelKind, LabelText, Style
from warmside.plugins.labels.drawing.sheet import SheetOptions, SheetResult, draw_sheets
from warmside.plugins.labels.paper.profile import PRINT_NOTE
from warmside.plugins.labels.paper.stock import Stock, find_stock, label_boxes
from warmside.plugins.labels.paper.stockfile import shipped_stocks
from warmside.plugins.labels.typesetting.layout import FAR_READABLE_MM

POINT = 72 / 25.4


def _text(result: SheetResult, stock: Stock, place: int, page: int = 0) -> str:
    """What stands in a place of a page."""
    box = label_boxes(stock)[place - 1]
    height = stock.page_height_mm
    return (
        pypdfium2.PdfDocument(result.pdf)[page]
        .get_textpage()
        .get_text_bounded(
            box.x_mm * POINT,
            (height - box.bottom_mm) * POINT,
            box.right_mm * POINT,
            (height - box.y_mm) * POINT,
        )
    )


def _numbered(count: int) -> list[Label]:
    return [enclosure_label(f"E{n:02}", []) for n in range(1, count + 1)]


def test_labels_start_at_a_place_and_skip_used_ones(default_stock: Stock) -> None:
    options = SheetOptions(start=3, used=frozenset({4}))
    result = draw_sheets(_numbered(23), default_stock, options)
    assert (result.pages, len(result.placed), result.used) == (2, 23, {1, 2})
    assert [_text(result, default_stock, n).strip() for n in (2, 3, 4, 5)] == ["", "E01", "", "E02"]
    assert _text(result, default_stock, 2, page=1).strip() == "E23"


def test_copies_stand_side_by_side(default_stock: Stock) -> None:
    result = draw_sheets(_numbered(2), default_stock, SheetOptions(copies=2))
    assert [_text(result, default_stock, n).strip() for n in (1, 2, 3, 4)] == [
        "E01",
        "E01",
        "E02",
        "E02",
    ]


def test_a_preview_marks_used_places_in_a_word(default_stock: Stock) -> None:
    options = SheetOptions(start=2, used=frozenset({5}), preview=True)
    result = draw_sheets(_numbered(1), default_stock, options)
    assert ["used" in _text(result, default_stock, n) for n in (1, 2, 5, 6)] == [
        True,
        False,
        True,
        False,
    ]


def test_the_words_about_printing_stand_where_the_margin_has_room() -> None:
    found = set()
    for stock in shipped_stocks():
        result = draw_sheets(_numbered(1), stock)
        text = pypdfium2.PdfDocument(result.pdf)[0].get_textpage().get_text_range()
        has_room = stock.bottom_margin_mm >= stock.edge_mm + 3.5
        assert (PRINT_NOTE in text) is has_room
        assert b"/PrintScaling /None" in result.pdf
        found.add(has_room)
    assert found == {True, False}


def test_the_same_labels_give_the_same_file(invented, default_stock: Stock) -> None:
    assert draw_sheets(invented.labels, default_stock) == draw_sheets(
        invented.labels, default_stock
    )


def test_markup_is_printed_as_typed_and_nothing_is_fetched(default_stock: Stock) -> None:
    names = ["<b>Bold</b>", "{{7*7}}", "<img src='http://example.org/x.png'>", "a & b <"]
    lines = tuple(LabelText(name, Style.PLAIN, "names") for name in names)
    result = draw_sheets([Label(LabelKind.ENCLOSURE, "E1", "", lines)], default_stock)
    text = " ".join(_text(result, default_stock, 1).split())
    assert all(name in text for name in names)
    assert b"/URI" not in result.pdf and b"/Annots" not in result.pdf


def test_faces_are_embedded(invented, default_stock: Stock) -> None:
    pdf = draw_sheets(invented.labels, default_stock).pdf
    assert pdf.count(b"/FontFile2") == 3  # regular, bold, oblique


@settings(max_examples=25, deadline=None)
@given(st.lists(st.text(st.characters(), max_size=320), min_size=1, max_size=4))
def test_any_name_gives_a_file_whose_text_stays_in_its_label(names: list[str]) -> None:
    stock = find_stock("a4-4x10", shipped_stocks())
    label = enclosure_label("E1", [Occupant("A1", name) for name in names])
    page = pypdfium2.PdfDocument(draw_sheets([label], stock).pdf)[0].get_textpage()
    box, height = label_boxes(stock)[0], stock.page_height_mm
    for n in range(page.count_chars()):
        left, bottom, right, top = (v / POINT for v in page.get_charbox(n))
        if height - top > 0.8 * height or right <= left:  # the note below the grid, spaces
            continue
        assert box.x_mm <= left and right <= box.right_mm + 0.3
        assert box.y_mm <= height - top + 0.5 and height - bottom <= box.bottom_mm + 0.5


def test_the_smallest_name_is_told(invented, default_stock: Stock) -> None:
    small = find_stock("a4-5x13", shipped_stocks())
    label = enclosure_label("RACK-03", [invented.juniper])
    assert draw_sheets([label], default_stock).lead_mm >= FAR_READABLE_MM
    assert draw_sheets([label], small).lead_mm < FAR_READABLE_MM


def test_no_labels_are_refused(default_stock: Stock) -> None:
    with pytest.raises(BadInput, match="no label to print"):
        draw_sheets([], default_stock)


@pytest.mark.parametrize(
    ("options", "corner", "edge"),
    [
        (SheetOptions(), False, False),
        (SheetOptions(cut_marks=True), True, False),
        (SheetOptions(cut_lines=True), False, True),  # the corner itself is round
    ],
)
def test_plain_paper_has_a_frame_or_marks_at_the_corners_by_choice(
    options: SheetOptions, corner: bool, edge: bool
) -> None:
    stock = find_stock("a4-3x8", shipped_stocks())
    assert stock.corner_radius_mm > 1
    result = draw_sheets(_numbered(1), stock, options)
    page = pypdfium2.PdfDocument(result.pdf)[0].render(scale=300 / 72, grayscale=True).to_numpy()
    box = label_boxes(stock)[4]  # an empty place, beside which nothing is printed

    def inked(x_mm: float, y_mm: float) -> bool:
        x, y = round(x_mm / 25.4 * 300), round(y_mm / 25.4 * 300)
        return bool((page[y - 3 : y + 4, x - 3 : x + 4] < 200).any())

    assert inked(box.x_mm, box.y_mm) is corner
    assert inked(box.x_mm, box.y_mm + box.height_mm / 2) is edge
