"""QR squares: the pattern of a payload, and a module size that a label printer can draw.

Source: ISO/IEC 18004, error level M (about 15 % restored) and a quiet zone of four modules
(published). A module of at least 0.4 mm is common practice, no source; a whole number of printer
dots a module keeps edges sharp at 203 dpi.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from msgspec import Struct

from warmside.api import BadInput

QUIET_MODULES = 4
SMALLEST_MODULE_MM = 0.4
DOT_MM = 25.4 / 203  # the coarser of the usual label printers
_DOTS = (8, 7, 6, 5, 4)  # 1.0 to 0.5 mm; larger ones only waste room

Matrix = tuple[tuple[bool, ...], ...]


class QrPlan(Struct, frozen=True):
    """A pattern and its module; `side_mm` includes the quiet zone on both sides."""

    matrix: Matrix
    module_mm: float

    @property
    def side_mm(self) -> float:
        """The side of the square that must stay free for the QR."""
        return (len(self.matrix) + 2 * QUIET_MODULES) * self.module_mm

    @property
    def quiet_mm(self) -> float:
        """The width of the white strip on each side."""
        return QUIET_MODULES * self.module_mm


@lru_cache(maxsize=4096)
def qr_matrix(text: str, version: int | None = None) -> Matrix:
    """Dark modules (True) by row and column, without the quiet zone.

    The smallest version that holds the text, or the `version` of its neighbours' codes.
    """
    from reportlab.graphics.barcode import qrencoder

    code = qrencoder.QRCode(version, qrencoder.QRErrorCorrectLevel.M)
    code.addData(text)
    code.make()
    return tuple(tuple(bool(module) for module in row) for row in code.modules)


def version_of(matrix: Matrix) -> int:
    """The version of a pattern: the smallest is 1 and has 21 modules a side."""
    return (len(matrix) - 17) // 4


def plan_qrs(texts: Sequence[str], wanted_mm: float, room_mm: float) -> list[QrPlan]:
    """Codes of one size for neighbours, as large as the one that says most."""
    version = max(version_of(qr_matrix(text)) for text in texts)
    return [plan_qr(text, wanted_mm, room_mm, version) for text in texts]


def plan_qr(text: str, wanted_mm: float, room_mm: float, version: int | None = None) -> QrPlan:
    """The largest whole-dot module within `wanted_mm`, else the smallest one within `room_mm`.

    BadInput where not even the smallest module fits.
    """
    matrix = qr_matrix(text, version)
    modules = len(matrix) + 2 * QUIET_MODULES
    for dots in _DOTS:
        if modules * dots * DOT_MM <= wanted_mm:
            return QrPlan(matrix, dots * DOT_MM)
    module = min(_DOTS[-1] * DOT_MM, room_mm / modules)
    if module < SMALLEST_MODULE_MM:
        raise BadInput(
            f"a QR of {len(text)} characters needs {modules * SMALLEST_MODULE_MM:.1f} mm, this"
            f" label leaves {max(room_mm, 0):.1f} mm; take a larger stock or a shorter address"
        )
    return QrPlan(matrix, module)
