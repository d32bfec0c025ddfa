"""Nothing on a label overflows or overlaps, whatever it says; what is lost is told."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from reportlab.pdfbase.pdfmetrics import stringWidth

from warmside.core.values.errors import BadInput
from warmside.plugins.labels.content.animals import Occupant, enclosure_label
from warmside.plugins.labels.content.hazards import find_hazard
from warmside.plugins.labels.content.label import Label, LabelKind, LabelText, Style
from warmside.plugins.labels.content.signs import hazard_sign
from warmside.plugins.labels.paper.stock import Box, Stock, content_box, find_stock, label_boxes
from warmside.plugins.labels.paper.stockfile import parse_stocks, shipped_stocks
from warmside.plugins.labels.typesetting.fonts import metrics
from warmside.plugins.labels.typesetting.items import CODE_KEY
from warmside.plugins.labels.typesetting.layout import (
    FAR_READABLE_MM,
    Layout,
    lay_out_all,
)
from warmside.plugins.labels.typesetting.rows import SMALLEST_PT

POINT_MM = 25.4 / 72
TIGHT = 1e-6


def _within(inner: Box, outer: Box) -> bool:
    return (
        inner.x_mm >= outer.x_mm - TIGHT
        and inner.y_mm >= outer.y_mm - TIGHT
        and inner.right_mm <= outer.right_mm + TIGHT
        and inner.bottom_mm <= outer.bottom_mm + TIGHT
    )


def _check_geometry(layout: Layout, box: Box, content: Box) -> None:
    """Measured with ReportLab's own widths, not with ours."""
    taken = []
    for row in layout.rows:
        width = stringWidth(row.text, metrics(row.face).name, row.size_pt) * POINT_MM
        assert row.size_pt >= SMALLEST_PT - TIGHT
        assert row.box.x_mm + width <= row.room_to_mm + TIGHT
        assert row.room_to_mm <= content.right_mm + TIGHT
        assert row.box.x_mm >= content.x_mm - TIGHT
        assert row.box.y_mm >= content.y_mm - TIGHT
        assert row.box.bottom_mm <= content.bottom_mm + TIGHT
        assert row.box.y_mm < row.baseline_mm < row.box.bottom_mm
        room = row.room_to_mm - row.box.x_mm
        taken.append(Box(row.box.x_mm, row.box.y_mm, room, row.box.height_mm))
    if layout.qr and layout.qr_box:
        dark = layout.qr_box.inset(layout.qr.quiet_mm)
        assert _within(dark, content)  # dark modules where print is safe
        assert _within(layout.qr_box, box)  # white on the label itself
        taken.append(layout.qr_box)
    for a, b in combinations(taken, 2):
        shared = a.meet(b)
        assert shared.width_mm <= TIGHT or shared.height_mm <= TIGHT


def _laid(label: Label, stock: Stock, place: int = 1) -> Layout:
    box = label_boxes(stock)[place - 1]
    (layout,) = lay_out_all([label], box, content_box(stock, box))
    _check_geometry(layout, box, content_box(stock, box))
    return layout


@pytest.mark.parametrize("stock", shipped_stocks(), ids=lambda stock: stock.name)
def test_every_kind_fits_every_place_of_every_stock(invented, stock: Stock) -> None:
    for label in invented.labels:
        for place in {1, stock.places}:
            _laid(label, stock, place)


lines = st.builds(
    LabelText,
    st.one_of(st.text(st.characters(), max_size=400), st.text("אבגabc 12()", max_size=90)),
    st.sampled_from([style for style in Style if style is not Style.LARGE]),
    st.sampled_from(["names", "latin", "x.y"]),
)


@settings(max_examples=120, deadline=None)
@given(
    st.sampled_from(LabelKind),
    st.sampled_from(shipped_stocks()),
    st.lists(lines, max_size=9).map(tuple),
    st.text(st.characters(exclude_categories=["C"]), min_size=1, max_size=60),
)
def test_any_text_stays_inside_and_apart(
    kind: LabelKind, stock: Stock, texts: tuple[LabelText, ...], code: str
) -> None:
    _laid(Label(kind, code, "WS.E.RACK-03", texts), stock)


def test_the_name_comes_first_and_largest_and_the_code_stands_below_its_qr(
    invented, default_stock: Stock
) -> None:
    layout = _laid(enclosure_label("RACK-03", [invented.juniper]), default_stock)
    name, *others = layout.rows
    code = others[-1]
    assert name.key == "names" and all(row.size_pt < name.size_pt for row in others)
    assert layout.lead_mm >= FAR_READABLE_MM and not layout.warnings
    assert code.key == CODE_KEY and layout.qr_box and layout.qr
    assert code.box.x_mm == pytest.approx(layout.qr_box.x_mm + layout.qr.quiet_mm)
    assert code.box.y_mm >= layout.qr_box.bottom_mm - TIGHT


@pytest.mark.parametrize("name", ["a4-3x8", "a4-2x4", "letter-3x10"])
def test_all_labels_of_a_sheet_share_one_grid(invented, name: str) -> None:
    """Sizes, baselines and the QR's square; a name too long for its row takes two, not half."""
    stock = find_stock(name, shipped_stocks())
    box = label_boxes(stock)[0]
    several = [
        invented.juniper,
        replace(invented.moss, hatched=""),
        Occupant("B1", "Bo", "rainbow boa", "Epicrates cenchria", genes="66 % het pale"),
        Occupant("B2", "Saffron of the Western Hills", "rainbow boa", "Epicrates cenchria"),
    ]
    labels = [enclosure_label(f"E{n}", [one]) for n, one in enumerate(several)]
    laid = lay_out_all([*labels, enclosure_label("SPARE", [])], box, content_box(stock, box))
    assert len({x.qr_box for x in laid}) == 1 and len({len(x.qr.matrix) for x in laid if x.qr}) == 1
    assert len({round(x.rows[0].baseline_mm, 6) for x in laid}) == 1
    assert len({round(x.rows[0].size_pt, 6) for x in (*laid[:3], laid[4])}) == 1
    long = [row for row in laid[3].rows if row.key == "names"]
    assert [row.text for row in long] == ["Saffron of the", "Western Hills"]
    assert {row.size_pt for row in long} == {long[0].size_pt}
    assert long[0].size_pt >= 0.8 * laid[0].rows[0].size_pt
    for key in ("latin", "species"):
        rows = [row for x in laid[:3] for row in x.rows if row.key == key]
        assert len({round(row.baseline_mm, 6) for row in rows}) == 1, key
    codes = [row for x in laid[:4] for row in x.rows if row.key == CODE_KEY]
    assert len({round(row.baseline_mm, 6) for row in codes}) == 1
    for key in ("species", CODE_KEY):
        assert len({r.size_pt for x in laid[:4] for r in x.rows if r.key == key}) == 1, key


def test_a_long_name_shrinks_then_is_shortened_with_mark_and_warning(default_stock: Stock) -> None:
    line = LabelText("Maximiliane " * 25, Style.NAME, "names")
    layout = _laid(Label(LabelKind.ENCLOSURE, "E1", "WS.E.E1", (line,)), default_stock)
    rows = [row for row in layout.rows if row.key == "names"]
    assert len(rows) == 2 and rows[-1].text.endswith("…")
    assert rows[0].size_pt == SMALLEST_PT
    assert layout.warnings == ("label E1: shortened to fit: names",)


def test_a_name_of_one_long_word_only_shrinks(default_stock: Stock) -> None:
    line = LabelText("Maximiliane-Rosenholz", Style.NAME, "names")
    layout = _laid(Label(LabelKind.ENCLOSURE, "E1", "WS.E.E1", (line,)), default_stock)
    assert not layout.warnings and layout.rows[0].text == line.text
    assert layout.rows[0].size_pt > SMALLEST_PT


def test_lines_without_room_are_left_out_with_mark_and_warning() -> None:
    stock = find_stock("a4-5x13", shipped_stocks())
    many = tuple(LabelText(f"line {n}", Style.PLAIN, f"x.{n}") for n in range(30))
    layout = _laid(Label(LabelKind.ENCLOSURE, "E1", "WS.E.E1", many), stock)
    assert layout.rows[-1].text.endswith(" …")
    assert "left out for want of room: " in layout.warnings[0] and "x.29" in layout.warnings[0]


def test_needed_lines_and_cautions_outlast_the_others() -> None:
    stock = find_stock("a4-5x13", shipped_stocks())
    plain = tuple(LabelText(f"line {n}", Style.PLAIN, f"x.{n}") for n in range(9))
    last = (
        LabelText("vet 555", Style.PLAIN, "vet", needed=True),
        LabelText("no handling", Style.CAUTION, "donot"),
    )
    layout = _laid(Label(LabelKind.SITTER, "E1", "WS.E.E1", plain + last), stock)
    assert {"vet", "donot", CODE_KEY} <= {row.key for row in layout.rows}


@pytest.mark.parametrize("stock", shipped_stocks(), ids=lambda stock: stock.name)
def test_large_words_of_a_sign_are_whole_on_every_stock(stock: Stock) -> None:
    layout = _laid(hazard_sign("V-9", find_hazard("venomous")), stock)
    large = " ".join(row.text for row in layout.rows if row.style is Style.LARGE)
    assert large == "DANGER – VENOMOUS"


def test_a_sign_without_room_for_its_large_words_is_refused() -> None:
    stock = find_stock("a4-5x13", shipped_stocks())
    words = LabelText("DANGER " * 40, Style.LARGE, "sign")
    with pytest.raises(BadInput, match="no room for its large words"):
        _laid(Label(LabelKind.HAZARD, "V", "WS.E.V", (words,)), stock)


def test_an_address_too_long_for_a_small_label_is_refused() -> None:
    text = '[[stock]]\nname = "tiny"\nroll_width_mm = 25\nroll_length_mm = 15\n'
    (stock,) = parse_stocks(text, "own.toml")
    label = enclosure_label("RACK-03", [], prefix="https://example.org/" + "r" * 20 + "/")
    with pytest.raises(BadInput, match="larger stock or a shorter address"):
        _laid(label, stock)


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("Liz 🦎", "U+1F98E lizard"),
        ("\x1b[31mRed", "control or direction characters"),
        ("a\u202eb", "control or direction characters"),
        ("\ud800x", "U+D800"),
        ("x" * 5000, "far too long"),
    ],
)
def test_what_could_not_be_printed_is_named_with_its_label(
    name: str, said: str, default_stock: Stock
) -> None:
    line = LabelText(name, Style.NAME, "names")
    layout = _laid(Label(LabelKind.ENCLOSURE, "E1", "WS.E.E1", (line,)), default_stock)
    assert any(said in text and "label E1: names" in text for text in layout.warnings)
    assert all(text.isprintable() for text in layout.warnings)


def test_a_label_without_payload_has_no_qr(default_stock: Stock) -> None:
    assert _laid(Label(LabelKind.ENCLOSURE, "E1", "", ()), default_stock).qr is None
