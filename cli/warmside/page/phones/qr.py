"""An address as a QR square, to be read from a screen by a phone's camera.

Source: ISO/IEC 18004, error level M and a quiet zone of four modules (published).
"""

from __future__ import annotations

from warmside.core.answers.drawings import Box, Drawing, Fill

QUIET = 4
MODULE_MM = 1.2  # read from a screen at arm's length; common practice, no source
Matrix = list[list[bool]]


def qr_drawing(title: str, text: str) -> Drawing:
    """The square as a drawing: for paper and page its dark modules, for a terminal half blocks."""
    matrix = _with_quiet_zone(_modules(text))
    side = len(matrix) * MODULE_MM
    shapes = tuple(
        Box((x * MODULE_MM, y * MODULE_MM), width * MODULE_MM, MODULE_MM, Fill.FULL, 0.0)
        for y, row in enumerate(matrix)
        for x, width in _runs(row)
    )
    return Drawing("qr", title, side, side, "mm", shapes, _half_blocks(matrix), {"says": text})


def _modules(text: str) -> Matrix:
    from reportlab.graphics.barcode import qrencoder

    code = qrencoder.QRCode(None, qrencoder.QRErrorCorrectLevel.M)
    code.addData(text)
    code.make()
    return [[bool(module) for module in row] for row in code.modules]


def _with_quiet_zone(matrix: Matrix) -> Matrix:
    wide = len(matrix) + 2 * QUIET
    beside = [False] * QUIET
    empty = [[False] * wide for _ in range(QUIET)]
    return [*empty, *[[*beside, *row, *beside] for row in matrix], *empty]


def _runs(row: list[bool]) -> list[tuple[int, int]]:
    """Where dark modules begin, and how many follow: one box for all, so that no seam shows."""
    found: list[tuple[int, int]] = []
    for x, dark in enumerate(row):
        if dark and x and row[x - 1]:
            found[-1] = (found[-1][0], found[-1][1] + 1)
        elif dark:
            found.append((x, 1))
    return found


def _half_blocks(matrix: Matrix) -> tuple[str, ...]:
    """Two rows a line; light modules are drawn, as most terminals are dark."""
    blocks = {(True, True): " ", (True, False): "▄", (False, True): "▀", (False, False): "█"}
    below = [*matrix[1:], [False] * len(matrix)]
    pairs = list(zip(matrix, below, strict=True))[::2]
    return tuple("".join(blocks[a, b] for a, b in zip(*pair, strict=True)) for pair in pairs)
