"""Label stocks: shipped ones fit their page, own ones are checked row by row."""

from __future__ import annotations

from itertools import combinations
from pathlib import Path

import pytest

from warmside.core.values.basis import Mark
from warmside.core.values.errors import BadInput
from warmside.plugins.labels.paper.stock import (
    Box,
    Stock,
    content_box,
    find_stock,
    label_boxes,
)
from warmside.plugins.labels.paper.stockfile import (
    all_stocks,
    parse_stocks,
    read_stocks,
    shipped_stocks,
)

OWN = """
[[stock]]
name = "own-2x2"
page = "a4"
columns = 2
rows = 2
label_width_mm = 90
label_height_mm = 60
pitch_x_mm = 95
pitch_y_mm = 65
margin_left_mm = 10
margin_top_mm = 12
"""


def _touch(a: Box, b: Box) -> bool:
    shared = a.meet(b)
    return shared.width_mm > 0.01 and shared.height_mm > 0.01


@pytest.mark.parametrize("stock", shipped_stocks(), ids=lambda stock: stock.name)
def test_every_shipped_stock_fits_its_page_without_overlap(stock: Stock) -> None:
    boxes = label_boxes(stock)
    assert len(boxes) == stock.places == stock.columns * stock.rows
    for box in boxes:
        assert box.x_mm >= 0 and box.y_mm >= 0
        assert box.right_mm <= stock.page_width_mm + 0.01
        assert box.bottom_mm <= stock.page_height_mm + 0.01
        inner = content_box(stock, box)
        assert inner.x_mm >= stock.edge_mm and inner.right_mm <= stock.page_width_mm - stock.edge_mm
    assert not any(_touch(a, b) for a, b in combinations(boxes, 2))


@pytest.mark.parametrize("stock", shipped_stocks(), ids=lambda stock: stock.name)
def test_every_shipped_grid_stands_in_the_middle_of_its_page(stock: Stock) -> None:
    boxes = label_boxes(stock)
    right = stock.page_width_mm - boxes[-1].right_mm
    assert right == pytest.approx(stock.margin_left_mm, abs=0.05)
    assert stock.bottom_margin_mm == pytest.approx(stock.margin_top_mm, abs=0.55)


def test_names_tell_the_geometry_and_every_row_names_its_source() -> None:
    for stock in shipped_stocks():
        assert stock.source.text and stock.source.mark in Mark
        if "x" in stock.name and not stock.name.startswith("roll"):
            columns, rows = stock.name.split("-")[1].split("x")
            assert (int(columns), int(rows)) == (stock.columns, stock.rows)


def test_places_run_row_by_row_from_the_top_left(default_stock: Stock) -> None:
    boxes = label_boxes(default_stock)
    assert default_stock.name == "a4-3x8"
    assert boxes[1].y_mm == boxes[0].y_mm and boxes[1].x_mm > boxes[0].x_mm
    assert boxes[3].x_mm == boxes[0].x_mm and boxes[3].y_mm > boxes[0].y_mm


def test_an_unknown_stock_suggests_a_near_one() -> None:
    with pytest.raises(BadInput, match=r"did you mean 'a4-3x8'"):
        find_stock("a4-3x88", shipped_stocks())


def test_an_own_stock_is_read_and_replaces_its_namesake(tmp_path: Path) -> None:
    path = tmp_path / "own.toml"
    path.write_text(OWN.replace("own-2x2", "a4-2x4"), "utf-8")
    own = read_stocks(path)
    stocks = all_stocks(own)
    assert find_stock("a4-2x4", stocks) is own[0]
    assert len(stocks) == len(shipped_stocks())
    assert own[0].source.mark is Mark.KEEPERS_OWN


def test_a_roll_is_a_page_of_one() -> None:
    text = '[[stock]]\nname = "roll-70x40"\nroll_width_mm = 70\nroll_length_mm = 40\n'
    (roll,) = parse_stocks(text, "own.toml")
    assert (roll.page_width_mm, roll.page_height_mm, roll.places) == (70, 40, 1)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("margin_left_mm = 10", "margin_left_mm = 40", "does not fit its page"),
        ("margin_top_mm = 12", "margin_top_mm = 200", "does not fit its page"),
        ("pitch_x_mm = 95", "pitch_x_mm = 80", "overlap"),
        ("pitch_y_mm = 65", "pitch_y = 65", "did you mean 'pitch_y_mm'"),
        ("pitch_y_mm = 65", "", "lacks pitch_y_mm"),
        ("columns = 2", "columns = 0", "from 1 to 100"),
        ("columns = 2", "columns = 2.5", "from 1 to 100"),
        ("columns = 2", 'columns = "2"', "number without quotes"),
        ("columns = 2", "columns = true", "number without quotes"),
        ("label_width_mm = 90", "label_width_mm = nan", "use 0 to"),
        ("label_width_mm = 90", "label_width_mm = inf", "use 0 to"),
        ("label_width_mm = 90", "label_width_mm = -90", "use 0 to"),
        ("label_width_mm = 90", "label_width_mm = 4", "too little to print on"),
        ('page = "a4"', 'page = "a9"', "is unknown"),
        ('page = "a4"', "page = 4", "must be text"),
        ('page = "a4"', 'page = "a4"\npage_width_mm = 210', "keep one of them"),
        ('page = "a4"', 'page = "a4"\nroll_width_mm = 210', "cannot have"),
        ('name = "own-2x2"', 'name = "Own <b>"', "small letters"),
        ("rows = 2", "rows = 2\ncorner_radius_mm = 40", "corner radius"),
        ("rows = 2", 'rows = 2\nmark = "sure"', "is unknown"),
        ("[[stock]]", "[[stocks]]", r"must hold \[\[stock\]\]"),
        ("rows = 2", "rows = = 2", "not valid TOML"),
    ],
)
def test_a_wrong_row_is_refused_in_one_line(old: str, new: str, said: str) -> None:
    with pytest.raises(BadInput, match=said) as caught:
        parse_stocks(OWN.replace(old, new), "own.toml")
    assert "\n" not in str(caught.value)


def test_two_stocks_of_a_name_are_refused() -> None:
    with pytest.raises(BadInput, match="two stocks called own-2x2"):
        parse_stocks(OWN + OWN, "own.toml")


def test_an_unreadable_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "own.toml").write_bytes(b"\xff\xfe\x00")
    for name in ("own.toml", "none.toml"):
        with pytest.raises(BadInput, match="cannot be read"):
            read_stocks(tmp_path / name)
