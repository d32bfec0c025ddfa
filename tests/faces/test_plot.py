"""A chart is made ready: in the keeper's units, with limits, without unusable points."""

from __future__ import annotations

from msgspec.structs import replace

from faces.specimen import HOURS, LOOK
from warmside.core.answers.parts import Axis, Band, Bars, Chart, Line, MarkRow
from warmside.core.values.quantities import Display
from warmside.core.values.units import Unit
from warmside.faces.drawn.plot import ready_to_draw, runs, widest_first

NAN, INF = float("nan"), float("inf")


def chart(*lines: Line, bands: tuple[Band, ...] = (), marks: tuple[MarkRow, ...] = ()) -> Chart:
    return Chart("c", "Mass", "day", "mass", Unit.MASS, lines, bands, marks, axis=Axis.NUMBERS)


def test_nothing_to_draw_is_none() -> None:
    assert ready_to_draw(chart(), LOOK) is None
    assert ready_to_draw(chart(Line("a", (NAN,), (1.0,))), LOOK) is None


def test_y_is_shown_in_the_units_of_the_collection() -> None:
    """One avoirdupois ounce is 28.349523125 g: international agreement of 1959, published."""
    look = replace(LOOK, display=Display.IMPERIAL)
    plot = ready_to_draw(chart(Line("a", (0.0, 1.0), (28.349523125, 56.69904625))), look)
    assert plot is not None
    assert plot.chart.lines[0].y == (1.0, 2.0)
    assert plot.y_words == "mass (oz)"


def test_a_gap_or_a_number_that_is_none_breaks_the_line() -> None:
    line = Line("a", (0.0, 1.0, 2.0, 3.0, 4.0), (1.0, None, 2.0, INF, 3.0))
    plot = ready_to_draw(chart(line), LOOK)
    assert plot is not None
    assert runs(plot.chart.lines[0]) == [[(0.0, 1.0)], [(2.0, 2.0)], [(4.0, 3.0)]]


def test_limits_leave_room_but_do_not_go_below_zero_without_need() -> None:
    plot = ready_to_draw(chart(Line("a", (0.0, 1.0), (0.0, 100.0))), LOOK)
    assert plot is not None
    assert (plot.y_low, plot.y_high) == (0.0, 105.0)


def test_one_point_stands_in_the_middle() -> None:
    plot = ready_to_draw(chart(Line("a", (5.0,), (50.0,))), LOOK)
    assert plot is not None
    assert plot.x_share(5.0) == 0.5
    assert 0.2 < plot.y_share(50.0) < 0.8


def test_marks_alone_are_worth_a_chart() -> None:
    plot = ready_to_draw(chart(marks=(MarkRow("meals", (1.0, NAN, 2.0)),)), LOOK)
    assert plot is not None
    assert plot.chart.marks[0].x == (1.0, 2.0)


def test_wide_bands_are_drawn_first_and_keep_their_number() -> None:
    narrow = Band("80 %", (0.0,), (1.0,), (2.0,))
    wide = Band("95 %", (0.0,), (0.0,), (3.0,))
    assert widest_first([narrow, wide]) == [(1, wide), (0, narrow)]


def test_bars_need_the_base_line_and_the_whole_of_their_breadth() -> None:
    bars = (Bars("a", (1.0, 2.0), (50.0, 60.0), 0.5),)
    plot = ready_to_draw(replace(chart(), bars=bars), LOOK)
    assert plot is not None
    assert (plot.x_low, plot.x_high, plot.y_low) == (0.75, 2.25, 0.0)
    below = ready_to_draw(replace(chart(), bars=(replace(bars[0], y=(-5.0, 5.0)),)), LOOK)
    assert below is not None
    assert below.y_low < -5


def test_an_axis_of_hours_shows_the_whole_day_and_nothing_beyond() -> None:
    line = Line("a", (-1.0, 6.0, 25.0), (1.0, 2.0, 3.0))
    plot = ready_to_draw(replace(HOURS, bars=(), lines=(line,)), LOOK)
    assert plot is not None
    assert (plot.x_low, plot.x_high) == (0.0, 24.0)
    assert plot.chart.lines[0].x == (6.0,)
