"""A chart in the terminal can be read without colour and never leaves the width."""

from __future__ import annotations

from datetime import date
from zoneinfo import ZoneInfo

from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from faces.specimen import HOURS, zones
from warmside.core.answers.parts import Axis, Band, Bars, Chart, Line, MarkRow
from warmside.core.values.quantities import Display
from warmside.core.values.units import Unit
from warmside.faces.look import Look
from warmside.faces.terminal import braille
from warmside.faces.terminal.terminal_chart import render_chart
from warmside.faces.terminal.widths import text_width

LOOK = Look(80, Display.METRIC, ZoneInfo("UTC"))
START = float(date(2025, 3, 1).toordinal())
DAYS = tuple(START + day for day in range(0, 60, 5))
CHART = Chart(
    "growth",
    "Mass of a made-up skink",
    "day",
    "mass",
    Unit.MASS,
    lines=(
        Line("expected", DAYS, tuple(100.0 + 2 * day for day in range(12))),
        Line("weighings", DAYS[::4], (99.0, 112.0, 120.0), points=True),
    ),
    bands=(Band("range", DAYS, (95.0,) * 12, (125.0,) * 12),),
    marks=(MarkRow("meals", DAYS[::2], "|"), MarkRow("sheds", (START + 30,), "s")),
)


def test_axes_are_labelled_in_display_units_and_dates() -> None:
    lines = render_chart(CHART, LOOK)
    assert lines[:2] == ["Mass of a made-up skink", "mass (g)"]
    assert any(line.startswith("  110 ┤") for line in lines)
    assert any("2025-03-29" in line for line in lines)
    imperial = render_chart(CHART, replace(LOOK, display=Display.IMPERIAL))
    assert imperial[1] == "mass (oz)"
    assert any(line.startswith("  4.0 ┤") for line in imperial)


def test_the_legend_names_every_sign() -> None:
    assert render_chart(CHART, LOOK)[-1] == (
        "⠤⠤⠤ expected   o weighings   ░ range   | meals (6)   s sheds (1)"
    )


def test_a_rising_line_goes_from_lower_left_to_upper_right() -> None:
    bare = replace(CHART, lines=CHART.lines[:1], bands=(), marks=())
    rows = [line.split("│")[-1].split("┤")[-1] for line in render_chart(bare, LOOK)[2:-3]]
    drawn = [row for row in rows if row.strip()]
    starts = [len(row) - len(row.lstrip()) for row in drawn]
    assert starts == sorted(starts, reverse=True)
    assert starts[-1] == 0


def test_points_and_marks_stand_where_they_belong() -> None:
    lines = render_chart(CHART, LOOK)
    assert sum(line.count("o") for line in lines[2:17] if "┤" in line or "│" in line) == 3
    meals = next(line for line in lines if line.startswith("meals"))
    assert meals.count("|") == 6
    assert meals.index("|") == len("meals  ")
    sheds = next(line for line in lines if line.startswith("sheds"))
    assert abs(sheds.index("s", 5) - (7 + 72 * 30 / 55)) < 2


def test_a_narrow_band_within_a_wide_one_is_seen_whatever_their_order() -> None:
    inner = Band("80 %", DAYS, (100.0,) * 12, (110.0,) * 12)
    outer = Band("95 %", DAYS, (80.0,) * 12, (140.0,) * 12)
    for bands in ((inner, outer), (outer, inner)):
        text = "\n".join(render_chart(replace(CHART, lines=(), bands=bands), LOOK)[:-2])
        assert "░" in text
        assert "·" in text


def test_nothing_to_draw_is_said() -> None:
    empty = replace(CHART, lines=(), bands=(), marks=())
    assert render_chart(empty, LOOK) == ["Mass of a made-up skink", "nothing on record to draw"]


def test_a_line_is_drawn_dot_by_dot() -> None:
    """Dot order of the Unicode braille patterns block, U+2800 to U+28FF, published."""
    corner_to_corner = braille.cells(braille.stroke([(0, 0), (1, 3)], braille.SOLID))
    assert corner_to_corner == {(0, 0): "⢣"}
    assert braille.cells([(0, 0), (1, 7)]) == {(0, 0): "⠁", (0, 1): "⢀"}


def test_dashes_leave_gaps() -> None:
    dots = list(braille.stroke([(0, 0), (13, 0)], braille.DASHED))
    assert [x for x, _ in dots] == [0, 1, 2, 3, 7, 8, 9, 10]


def test_more_than_three_curves_carry_their_letter_and_are_named_at_their_ends() -> None:
    lines = render_chart(zones(6), LOOK)
    plot = [line for line in lines if "│" in line or "┤" in line]
    names = ("basking", "warm side", "middle", "cool side", "hide", "room")
    for letter, name in zip("abcdef", names, strict=True):
        assert sum(f" {letter} {name}" in line for line in plot) == 1
        assert sum(line[:66].count(letter) for line in plot) >= 2
    ends = [name for line in plot for name in names if line.endswith(name)]
    assert ends == list(names)
    narrow = render_chart(zones(6), replace(LOOK, width=50))
    assert not any("basking" in line for line in narrow[:-4])
    assert "a⠤⠤⠤ basking" in " ".join(narrow[-4:])


def test_bars_are_as_high_as_their_number_and_stand_side_by_side() -> None:
    plot = [line for line in render_chart(HOURS, LOOK) if "│" in line or "┤" in line]
    assert sum("▒" in line for line in plot) > sum("████" in line for line in plot) > 5
    assert "▒▒▒████" in "".join(plot)
    assert plot[-1].count("███") == 4  # the lowest bar too


NUMBERS = st.floats(-1e9, 1e9) | st.sampled_from([float("nan"), float("inf")])


@st.composite
def charts(draw: st.DrawFn) -> Chart:
    """Charts of any numbers and titles."""
    text = st.text(st.characters(codec=None), max_size=40)
    size = draw(st.integers(0, 5))
    series = st.lists(NUMBERS, min_size=size, max_size=size).map(tuple)
    xs = draw(series.map(lambda x: tuple(sorted(x, key=str))))
    lines = tuple(
        Line(draw(text), xs, draw(series), draw(st.booleans()))
        for _ in range(draw(st.integers(0, 9)))
    )
    bands = (Band(draw(text), tuple(sorted(xs)), draw(series), draw(series)),)
    marks = (MarkRow(draw(text), xs, draw(text)),)
    titles = draw(text), draw(text), draw(text)
    axis = draw(st.sampled_from(Axis))
    bars = tuple(Bars(draw(text), xs, draw(series), draw(st.floats(0.01, 9))) for _ in range(2))
    return Chart("c", *titles, Unit.MASS, lines, bands, marks, axis, bars)


@settings(deadline=None)
@given(charts(), st.integers(20, 100), st.booleans())
def test_any_chart_stays_within_the_width(chart: Chart, width: int, colour: bool) -> None:
    for line in render_chart(chart, replace(LOOK, width=width)):
        assert text_width(line) <= width
    render_chart(chart, replace(LOOK, width=width, colour=colour))
