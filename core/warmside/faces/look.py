"""How a keeper wants to see an answer: width, units, time zone, colour."""

from __future__ import annotations

from pathlib import Path
from zoneinfo import ZoneInfo

from msgspec import Struct

from warmside.core.values.quantities import Display


class Look(Struct, frozen=True):
    """The width in terminal columns, the units shown, the zone of clock times, ANSI or none.

    `pictures` are the folders in which the files of pictures are looked for, `sheet` the points
    across and down that a drawing may take on paper.
    """

    width: int
    display: Display
    zone: ZoneInfo
    colour: bool = False
    pictures: tuple[Path, ...] = ()
    sheet: tuple[float, float] = (483.0, 660.0)
