"""The room for an animal's picture on its card: at the left, beside the lines."""

from __future__ import annotations

from warmside.plugins.labels.paper.stock import Box

_MOST = (0.28, 30.0)
_GAP_MM = 1.5
LEAST_MM = 8.0
"""In less room nobody knows an animal again (common practice, no source)."""


def with_portrait(content: Box) -> tuple[Box, Box] | None:
    """The square for a picture and what is left for print; None where the label is too small.

    It takes at most 0.28 of the width, since the QR wants its part, too, and 30 mm.
    """
    side = min(_MOST[0] * content.width_mm, _MOST[1], content.height_mm)
    if side < LEAST_MM:
        return None
    picture = Box(content.x_mm, content.y_mm, side, side)
    left = content.x_mm + side + _GAP_MM
    rest = Box(left, content.y_mm, content.right_mm - left, content.height_mm)
    return picture, rest
