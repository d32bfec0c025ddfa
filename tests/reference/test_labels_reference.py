"""Labels held against outside rulers: a QR reader, a PDF parser, Unicode."""

from __future__ import annotations

import math
import tomllib
import unicodedata
from importlib.resources import files
from itertools import product

import cv2
import numpy as np
import pypdf
import pypdfium2
import pytest
import zxingcpp
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image
from pypdf.generic import ContentStream

from warmside.plugins.labels.content.animals import Occupant, Sex, animal_card, enclosure_label
from warmside.plugins.labels.content.codes import parse_scanned
from warmside.plugins.labels.content.hazards import find_hazard
from warmside.plugins.labels.content.label import Label
from warmside.plugins.labels.content.signs import door_sign, hazard_sign, sitter_strip
from warmside.plugins.labels.drawing.calibration import calibration_page
from warmside.plugins.labels.drawing.sheet import SheetOptions, draw_sheets
from warmside.plugins.labels.paper.profile import (
    Measured,
    PrinterProfile,
    profile_from_measurements,
)
from warmside.plugins.labels.paper.stock import Stock, find_stock, label_boxes
from warmside.plugins.labels.paper.stockfile import shipped_stocks
from warmside.plugins.labels.paper.stockrow import PAGES_MM
from warmside.plugins.labels.typesetting.qr import qr_matrix
from warmside.plugins.labels.typesetting.script import join_arabic, visual_order

POINT = 72 / 25.4
STOCKS = pytest.mark.parametrize("stock", shipped_stocks(), ids=lambda stock: stock.name)
UNLIKE = ("a4-5x13", "a4-3x8", "roll-50x30", "card-a6", "letter-2x7")  # the least, the usual, ...
SCANNED = pytest.mark.parametrize("stock", [find_stock(n, shipped_stocks()) for n in UNLIKE])
PREFIX = "https://a.example/"  # a sign on the smallest stock has room for no longer one


def _labels(prefix: str = "") -> list[Label]:
    animal = Occupant("A012", "Juniper", "", "Lepidodactylus fictus", Sex.FEMALE, "2021")
    return [
        enclosure_label("RACK-03", [animal], prefix=prefix),
        animal_card(animal, prefix=prefix),
        door_sign("Q1", since="2026-01-05", prefix=prefix),
        hazard_sign("V-9", find_hazard("venomous"), prefix=prefix),
        sitter_strip("E07", [animal], meal="Thu", do_nots=["handle"], prefix=prefix),
    ]


# -- QR: zxing-cpp


@SCANNED
@pytest.mark.parametrize(("dpi", "prefix"), [(203, ""), (203, PREFIX), (300, "")])
def test_every_qr_is_read_by_two_readers_and_agrees_with_the_print(
    stock: Stock, dpi: int, prefix: str
) -> None:
    """Readers: zxing-cpp and OpenCV, which share no code, on pdfium's raster (reference libs).

    203 dpi also cut to black and white. Every kind, on stocks that differ most; the code read is
    the code that pdfium extracts from the label.
    """
    labels = _labels(prefix)
    result = draw_sheets(labels, stock, SheetOptions(cut_lines=True))
    document = pypdfium2.PdfDocument(result.pdf)
    found: dict[str, str] = {}
    for page in document:
        image = page.render(scale=dpi / 72, grayscale=True).to_pil()
        rasters = [image, image.point(lambda v: 255 * (v > 127))] if dpi == 203 else [image]
        read = [_read(raster) for raster in rasters]
        assert all(other == read[0] for other in read)
        words = page.get_textpage().get_text_range().split()
        for text in read[0]:
            found[text] = next(w for w in words if w == parse_scanned(text).code)
    assert found == {label.payload: label.code_text for label in labels}


def _read(image: Image.Image) -> set[str]:
    """What zxing-cpp finds on a page; OpenCV reads the same in each place."""
    codes = zxingcpp.read_barcodes(image, formats=zxingcpp.BarcodeFormat.QRCode)
    assert all(code.ec_level == "M" for code in codes)
    for code in codes:
        assert _read_again(image, code.position) == code.text
    return {code.text for code in codes}


def _read_again(image: Image.Image, where: zxingcpp.Position) -> str:
    """What OpenCV reads in a place, with the quiet zone around it."""
    corners = (where.top_left, where.top_right, where.bottom_left, where.bottom_right)
    xs, ys = [c.x for c in corners], [c.y for c in corners]
    quiet = (max(xs) - min(xs)) // 7
    part = image.crop((min(xs) - quiet, min(ys) - quiet, max(xs) + quiet, max(ys) + quiet))
    reader = cv2.QRCodeDetector()
    sizes = ((part.width * n, part.height * n) for n in (1, 2, 3))  # its locator wants large codes
    texts = (reader.detectAndDecode(np.asarray(part.resize(size)))[0] for size in sizes)
    return next((text for text in texts if text), "")


def test_a_full_sheet_is_read_by_zxing() -> None:
    """Reader: zxing-cpp (reference lib); 24 labels of a sheet at 203 dpi."""
    labels = [enclosure_label(f"RACK-{n:02}", []) for n in range(24)]
    result = draw_sheets(labels, shipped_stocks()[0])
    image = pypdfium2.PdfDocument(result.pdf)[0].render(scale=203 / 72, grayscale=True).to_pil()
    assert _read(image) == {label.payload for label in labels}


@settings(max_examples=30)
@given(st.text("ABCDEFGHIJ0123456789-.%", min_size=1, max_size=50))
def test_patterns_have_the_size_that_segno_gives(text: str) -> None:
    """Against segno, an independent encoder (reference lib): version for level M."""
    segno = pytest.importorskip("segno")
    version = segno.make_qr(text, error="m", boost_error=False).version
    assert len(qr_matrix(text)) == 17 + 4 * version


# -- geometry: the PDF's own drawing operations


def _clips(pdf: bytes) -> list[list[tuple[float, float]]]:
    """The corners of each label's clip rectangle in mm from the top left, read by pypdf."""
    import io

    reader = pypdf.PdfReader(io.BytesIO(pdf))
    corners: list[list[tuple[float, float]]] = []
    for page in reader.pages:
        height = float(page.mediabox.height)
        matrix, stack, last = np.eye(3), [], None
        for operands, operator in ContentStream(page.get_contents(), reader).operations:
            if operator == b"q":
                stack.append(matrix)
            elif operator == b"Q":
                matrix = stack.pop()
            elif operator == b"cm":
                a, b, c, d, e, f = (float(v) for v in operands)
                matrix = np.array([[a, b, 0], [c, d, 0], [e, f, 1]]) @ matrix
            elif operator == b"re":
                last = [float(v) for v in operands]
            elif operator == b"W*" and last:
                x, y, w, h = last
                points = [(x, y), (x + w, y), (x + w, y + h), (x, y + h)]
                drawn = [(np.array([*p, 1.0]) @ matrix)[:2] for p in points]
                corners.append([(px / POINT, (height - py) / POINT) for px, py in drawn])
    return corners


def _nominal(stock: Stock) -> list[list[tuple[float, float]]]:
    """Corners from the rows of the data file, by its own plain arithmetic."""
    text = files("warmside.plugins.labels").joinpath("data/stocks.toml").read_text("utf-8")
    row = next(row for row in tomllib.loads(text)["stock"] if row["name"] == stock.name)
    if "roll_width_mm" in row:
        width, height = row["roll_width_mm"], row["roll_length_mm"]
        return [[(0, height), (width, height), (width, 0), (0, 0)]]
    boxes = []
    for down, across in product(range(row["rows"]), range(row["columns"])):
        left = row["margin_left_mm"] + across * row["pitch_x_mm"]
        top = row["margin_top_mm"] + down * row["pitch_y_mm"]
        right, bottom = left + row["label_width_mm"], top + row["label_height_mm"]
        boxes.append([(left, bottom), (right, bottom), (right, top), (left, top)])
    return boxes


def _full(stock: Stock, profile: PrinterProfile) -> bytes:
    options = SheetOptions(profile=profile, copies=stock.places)
    return draw_sheets([enclosure_label("E1", [])], stock, options).pdf


@STOCKS
def test_every_label_box_is_where_the_data_says_to_a_tenth_of_a_millimetre(stock: Stock) -> None:
    """Measured in the PDF's drawing operations by pypdf, an independent parser (reference lib)."""
    measured = _clips(_full(stock, PrinterProfile()))
    assert len(measured) == stock.places
    assert np.allclose(measured, _nominal(stock), atol=0.1)


@STOCKS
def test_with_calibration_a_wrong_printer_puts_every_box_in_its_place(stock: Stock) -> None:
    """A printer with a known error, measured as a keeper would; the PDF read by pypdf.

    Plane geometry: scale, then turn, then shift, written here anew.
    """
    turn = math.radians(0.4)
    error = np.array(
        [
            [0.994 * math.cos(turn), -1.006 * math.sin(turn)],
            [0.994 * math.sin(turn), 1.006 * math.cos(turn)],
        ]
    )
    shift = np.array([1.3, -0.8])

    def put(x: float, y: float) -> np.ndarray:
        return error @ np.array([x, y]) + shift

    measured = Measured(
        math.dist(put(30, 40), put(130, 40)),
        math.dist(put(30, 40), put(30, 140)),
        *put(20, 20),
        put(190, 20)[1],
    )
    profile = profile_from_measurements(measured, 210)
    drawn = _clips(_full(stock, profile))
    printed = [[put(*corner) for corner in box] for box in drawn]
    assert np.allclose(printed, _nominal(stock), atol=0.1)
    uncorrected = [[put(*c) for c in box] for box in _clips(_full(stock, PrinterProfile()))]
    assert not np.allclose(uncorrected, _nominal(stock), atol=0.1)  # the check can fail


@STOCKS
def test_cut_lines_lie_on_the_label_boxes(stock: Stock) -> None:
    """Outlines measured by pdfium's path bounds (reference lib), to 0.1 mm and half a hairline."""
    label = enclosure_label("E1", [])
    page = pypdfium2.PdfDocument(draw_sheets([label], stock, SheetOptions(cut_lines=True)).pdf)[0]
    shapes = page.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_PATH])
    bounds = [[v / POINT for v in shape.get_bounds()] for shape in shapes]
    for box in label_boxes(stock):
        bottom = stock.page_height_mm - box.bottom_mm
        wanted = [box.x_mm, bottom, box.right_mm, stock.page_height_mm - box.y_mm]
        assert any(np.allclose(found, wanted, atol=0.1 + 0.08) for found in bounds)


def test_the_control_lines_are_a_hundred_millimetres() -> None:
    """Rastered by pdfium at 600 dpi and measured in pixels (reference lib)."""
    page = pypdfium2.PdfDocument(calibration_page(210, 297))[0]
    dark = np.asarray(page.render(scale=600 / 72, grayscale=True).to_pil()) < 128
    pixel = 25.4 / 600
    across = dark[round(40 / pixel)]
    down = dark[:, round(30 / pixel)]
    assert np.ptp(np.flatnonzero(across)) * pixel == pytest.approx(100, abs=0.3)
    assert np.ptp(np.flatnonzero(down)) * pixel == pytest.approx(100, abs=0.3)
    cross_row = np.flatnonzero(dark[round(17 / pixel)])  # above the centre only upright strokes
    centres = [
        np.mean(part) * pixel
        for part in np.split(cross_row, np.where(np.diff(cross_row) > 9)[0] + 1)
    ]
    assert centres == pytest.approx([20, 190], abs=0.1)


def test_page_sizes_are_those_of_the_standard() -> None:
    """ISO 216 (published): A0 has one square metre, sides 1 to root 2, each size halves the last.

    US Letter is 8.5 by 11 inches (ANSI/ASME Y14.1 size A, published).
    """
    for n, name in ((4, "a4"), (5, "a5"), (6, "a6"), (7, "a7")):
        width = 1000 * 2 ** (-0.25) / 2 ** (n / 2)
        assert PAGES_MM[name] == pytest.approx((width, width * math.sqrt(2)), abs=1)
    assert PAGES_MM["letter"] == pytest.approx((8.5 * 25.4, 11 * 25.4))


# -- writing from right to left

HEBREW = str.maketrans("ABCDEFGHIJKLMNOPQRSTUVWXYZ", "אבגדהוזחטיכלמנסעפצקרשתךםןף")


@pytest.mark.parametrize(
    ("typed", "on_paper"),
    [
        ("car means CAR.", "car means RAC."),  # L2, first example
        ("AB(CD[&ef]!)gh", "gh(![ef&]DC)BA"),  # N0, first example, paragraph level 1
        ("ARABIC book(s)", "book(s) CIBARA"),  # N0, third example
        ("DID YOU SAY he said?", "?he said YAS UOY DID"),  # L2 within a line that runs left
    ],
)
def test_order_on_paper_is_that_of_the_standards_examples(typed: str, on_paper: str) -> None:
    """Unicode Standard Annex #9, sections 3.3.5 (N0) and 3.4 (L2) (published); texts from memory.

    Capitals stand for letters that run from right to left, as in the standard.
    """
    paragraph = "A".translate(HEBREW)  # N0, second example, paragraph level 1
    smith = visual_order("smith (fabrikam ARABIC) HEBREW".translate(HEBREW), paragraph)
    assert smith == "WERBEH (CIBARA fabrikam) smith".translate(HEBREW)
    assert visual_order(typed.translate(HEBREW)) == on_paper.translate(HEBREW)


@settings(max_examples=150)
@given(st.text("abא ב12,.-%ج<>«»", max_size=30).map(str.strip))
def test_order_and_mirroring_agree_with_a_second_implementation(text: str) -> None:
    """Against the Python code of python-bidi (reference lib), which shares nothing with the Rust
    code that we use and mirrors by itself (L4); older than paired brackets (N0), so none here.
    """
    from bidi.algorithm import get_display

    assert visual_order(text) == get_display(text)


JOINED = "بتثجحخسشصضطظعغفقكلمنهي"  # letters that join on both sides
RIGHT = "ادذرزو"  # letters that join to the one before only


@given(st.text(JOINED + RIGHT + " ", max_size=20))
def test_arabic_letters_take_the_forms_of_the_standard(text: str) -> None:
    """The Unicode Standard, chapter 9.2, rules R1 to R7 (published), by the names of UnicodeData.

    Lam before alef is the one ligature, and no ligature is in this test.
    """
    text = text.replace("لا", "ل ا")
    shaped = join_arabic(text)
    for n, letter in enumerate(text):
        before = text[n - 1 : n] in set(JOINED) and letter != " "
        after = letter in JOINED and text[n + 1 : n + 2].strip() != ""
        form = ("ISOLATED", "INITIAL", "FINAL", "MEDIAL")[2 * before + after]
        wanted = " " if letter == " " else f"{unicodedata.name(letter)} {form} FORM"
        assert letter == shaped[n] == " " or unicodedata.name(shaped[n]) == wanted


@given(st.text("ابتسلامةديپچژگکآأإؤئـ\u064b\u0651 ", max_size=20))
def test_joined_letters_stand_for_the_letters_typed(text: str) -> None:
    """UnicodeData.txt, compatibility decompositions (published), as in the standard library."""
    typed, joined = (
        sorted(c for c in unicodedata.normalize("NFKD", t)) for t in (text, join_arabic(text))
    )
    assert joined == typed
