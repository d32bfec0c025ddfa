"""Readings that hardly any place has: of a number meant in the other scale, say so."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from warmside.api import Display, Unit, format_quantity

HOTTEST_C = {"air_c": 50.0, "surface_c": 70.0}
COLDEST_C = 2.0
MOST_UV = 15.0
"""Ours (common practice, no source): beyond these a reading is asked about."""


def doubts(data: Mapping[str, Any], display: Display) -> Iterator[str]:
    """What is odd about a zone's reading, in the keeper's words."""
    zone = data["zone"]
    for name, most in HOTTEST_C.items():
        value = data.get(name)
        if value is None or COLDEST_C <= value <= most:
            continue
        told = format_quantity(value, Unit.TEMPERATURE, display)
        other = f" ({value:.0f} °F would be {(value - 32) / 1.8:.0f} °C)" if value > 70 else ""
        yield f"{told} at {zone}: check number, scale and thermometer{other}"
    uv = data.get("uv_index")
    if uv is not None and uv > MOST_UV:
        yield f"a UV index of {uv:g} at {zone} is more than the sun's: check meter and distance"


def says_nothing(data: Mapping[str, Any]) -> bool:
    """Whether a reading holds no value at all."""
    return all(data.get(n) is None for n in (*HOTTEST_C, "humidity_percent", "uv_index"))
