"""A printer's measured error and its correction."""

from __future__ import annotations

import math

import pypdfium2
import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.values.errors import BadInput
from warmside.plugins.labels.drawing.calibration import calibration_page
from warmside.plugins.labels.paper.profile import (
    PRINT_NOTE,
    UNCORRECTED,
    Measured,
    PrinterProfile,
    checked_profile,
    profile_from_measurements,
)

PAGE = (210.0, 297.0)


def _printer(scale_x: float, scale_y: float, turn_deg: float, right: float, down: float):
    """A printer that scales, turns and shifts: where it puts a point of the page."""
    cos, sin = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))

    def put(x: float, y: float) -> tuple[float, float]:
        x, y = scale_x * x, scale_y * y
        return cos * x - sin * y + right, sin * x + cos * y + down

    return put


def _measured(put) -> Measured:
    return Measured(
        math.dist(put(30, 40), put(130, 40)),
        math.dist(put(30, 40), put(30, 140)),
        *put(20, 20),
        put(PAGE[0] - 20, 20)[1],
    )


errors = st.builds(
    _printer,
    st.floats(0.98, 1.02),
    st.floats(0.98, 1.02),
    st.floats(-1, 1),
    st.floats(-3, 3),
    st.floats(-3, 3),
)


@given(errors, st.floats(0, 210), st.floats(0, 297))
def test_the_correction_puts_every_point_where_it_belongs(put, x: float, y: float) -> None:
    profile = checked_profile(profile_from_measurements(_measured(put), PAGE[0]))
    assert put(*profile.corrected(x, y)) == pytest.approx((x, y), abs=1e-6)


@given(errors, st.floats(0, 210), st.floats(0, 297))
def test_the_pdf_matrix_is_the_same_correction(put, x: float, y: float) -> None:
    profile = profile_from_measurements(_measured(put), PAGE[0])
    a, b, c, d, e, f = profile.matrix(PAGE[1])
    point = 72 / 25.4
    px, py = x * point, (PAGE[1] - y) * point
    drawn = ((a * px + c * py + e) / point, PAGE[1] - (b * px + d * py + f) / point)
    assert drawn == pytest.approx(profile.corrected(x, y), abs=1e-6)


def test_a_true_printer_needs_no_correction() -> None:
    profile = profile_from_measurements(Measured(100, 100, 20, 20, 20), 210)
    assert profile == PrinterProfile(*(pytest.approx(v) for v in (0, 0, 1, 1, 0)))
    assert UNCORRECTED.matrix(297) == pytest.approx((1, 0, 0, 1, 0, 0))


def test_a_print_too_far_right_is_moved_left() -> None:
    profile = profile_from_measurements(Measured(100, 100, 21.5, 20, 20), 210)
    assert profile.offset_x_mm == pytest.approx(-1.5)


@pytest.mark.parametrize(
    ("values", "said"),
    [
        ((94, 100, 20, 20, 20), "no fit to page"),
        ((100, 0, 20, 20, 20), "line down measures 0"),
        ((-100, 100, 20, 20, 20), "line across"),
        ((math.nan, 100, 20, 20, 20), "line across"),
        ((100, math.inf, 20, 20, 20), "line down"),
        ((100, 100, 200, 20, 20), "left cross at 200"),
        ((100, 100, 20, math.nan, 20), "top cross"),
        ((100, 100, 20, 20, 29), "feed the sheet straight"),
    ],
)
def test_absurd_measurements_are_refused(values: tuple[float, ...], said: str) -> None:
    with pytest.raises(BadInput, match=said):
        profile_from_measurements(Measured(*values), 210)


@pytest.mark.parametrize(
    "profile",
    [PrinterProfile(40), PrinterProfile(scale_x=2), PrinterProfile(rotation_deg=math.nan)],
)
def test_an_absurd_stored_profile_is_refused(profile: PrinterProfile) -> None:
    with pytest.raises(BadInput, match="calibrate again"):
        checked_profile(profile)


@pytest.mark.parametrize("page", [(210.0, 297.0), (215.9, 279.4), (148.0, 210.0)])
def test_the_calibration_page_tells_how_to_print_it(page: tuple[float, float]) -> None:
    pdf = calibration_page(*page)
    assert pdf == calibration_page(*page)
    document = pypdfium2.PdfDocument(pdf)
    assert [round(side * 25.4 / 72, 1) for side in document[0].get_size()] == list(page)
    text = document[0].get_textpage().get_text_range()
    assert PRINT_NOTE in text and "across" in text
    assert b"/PrintScaling /None" in pdf


@pytest.mark.parametrize("page", [(50.0, 30.0), (math.nan, 297.0)])
def test_a_page_too_small_for_the_lines_is_refused(page: tuple[float, float]) -> None:
    with pytest.raises(BadInput, match="too small to calibrate"):
        calibration_page(*page)
