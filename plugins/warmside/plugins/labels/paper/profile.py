"""A printer's own error, measured on the calibration page, and the correction that takes it out.

Plane geometry: the printer scales, turns and shifts what it is given; the correction is the inverse
of that map. Lengths in millimetres from the top left corner of the paper, y downwards, angles
clockwise.
"""

from __future__ import annotations

import math

from msgspec import Struct

from warmside.api import BadInput

LINE_MM = 100.0
CROSS_MM = 20.0  # from the sides of the paper to the crosses
PRINT_NOTE = "print at 100 %, no fit to page"
_SCALE_LIMIT_MM = 3.0  # more than this is a driver that scales, not a printer that errs
_SHIFT_LIMIT_MM = 10.0
_TURN_LIMIT_DEG = 2.0


class PrinterProfile(Struct, frozen=True):
    """The correction for one printer: turned, then scaled, then shifted right and down."""

    offset_x_mm: float = 0.0
    offset_y_mm: float = 0.0
    scale_x: float = 1.0
    scale_y: float = 1.0
    rotation_deg: float = 0.0

    def corrected(self, x_mm: float, y_mm: float) -> tuple[float, float]:
        """Where a point must be drawn so that the printer puts it at (x, y)."""
        turn = math.radians(self.rotation_deg)
        cos, sin = math.cos(turn), math.sin(turn)
        return (
            self.scale_x * (cos * x_mm - sin * y_mm) + self.offset_x_mm,
            self.scale_y * (sin * x_mm + cos * y_mm) + self.offset_y_mm,
        )

    def matrix(self, page_height_mm: float) -> tuple[float, float, float, float, float, float]:
        """The PDF matrix (a b c d e f, in points, y upwards) of the correction on a page."""
        origin, right, down = (
            self.corrected(x, page_height_mm - y) for x, y in ((0, 0), (1, 0), (0, 1))
        )
        point = 72 / 25.4
        return (
            right[0] - origin[0],
            origin[1] - right[1],
            down[0] - origin[0],
            origin[1] - down[1],
            origin[0] * point,
            (page_height_mm - origin[1]) * point,
        )


UNCORRECTED = PrinterProfile()


class Measured(Struct, frozen=True):
    """What a keeper measures on the printed calibration page, with a ruler, in millimetres.

    `across` and `down` are the lengths of the control lines; `left` and `top` the distances of the
    upper left cross from the paper's edges; `top_right` that of the upper right cross from the top.
    """

    across_mm: float
    down_mm: float
    left_mm: float
    top_mm: float
    top_right_mm: float


def profile_from_measurements(measured: Measured, page_width_mm: float) -> PrinterProfile:
    """The correction for what was measured on a page of this width; BadInput for absurd values."""
    _check(measured)
    scale_x, scale_y = measured.across_mm / LINE_MM, measured.down_mm / LINE_MM
    between = (page_width_mm - 2 * CROSS_MM) * scale_x
    sine = (measured.top_right_mm - measured.top_mm) / between
    if abs(sine) > math.sin(math.radians(_TURN_LIMIT_DEG)):
        raise BadInput(
            f"the crosses at {measured.top_mm:g} and {measured.top_right_mm:g} mm mean a turn of"
            f" more than {_TURN_LIMIT_DEG:g} degrees; feed the sheet straight and print again"
        )
    turn = math.asin(sine)
    cos = math.cos(turn)
    x, y = scale_x * CROSS_MM, scale_y * CROSS_MM
    shift_x = measured.left_mm - (cos * x - sine * y)
    shift_y = measured.top_mm - (sine * x + cos * y)
    return PrinterProfile(
        -(cos * shift_x + sine * shift_y) / scale_x,
        -(cos * shift_y - sine * shift_x) / scale_y,
        1 / scale_x,
        1 / scale_y,
        -math.degrees(turn),
    )


def checked_profile(profile: PrinterProfile) -> PrinterProfile:
    """A profile read back from storage or typed; BadInput for absurd values."""
    limits = (
        ("offset_x_mm", profile.offset_x_mm, 0.0, 1.5 * _SHIFT_LIMIT_MM),
        ("offset_y_mm", profile.offset_y_mm, 0.0, 1.5 * _SHIFT_LIMIT_MM),
        ("scale_x", profile.scale_x, 1.0, 0.04),
        ("scale_y", profile.scale_y, 1.0, 0.04),
        ("rotation_deg", profile.rotation_deg, 0.0, _TURN_LIMIT_DEG + 0.01),
    )
    for name, value, middle, limit in limits:
        if not abs(value - middle) <= limit:
            raise BadInput(f"printer profile: {name} of {value:g} is absurd; calibrate again")
    return profile


def _check(measured: Measured) -> None:
    for name, value in (("across", measured.across_mm), ("down", measured.down_mm)):
        if not abs(value - LINE_MM) <= _SCALE_LIMIT_MM:
            raise BadInput(
                f"the control line {name} measures {value:g} mm instead of 100; {PRINT_NOTE},"
                " then measure again"
            )
    for name, value in (
        ("left", measured.left_mm),
        ("top", measured.top_mm),
        ("top right", measured.top_right_mm),
    ):
        if not abs(value - CROSS_MM) <= _SHIFT_LIMIT_MM:
            raise BadInput(
                f"the {name} cross at {value:g} mm is more than {_SHIFT_LIMIT_MM:g} mm off its"
                f" {CROSS_MM:g} mm; measure from the edge of the paper to the middle of the cross"
            )
