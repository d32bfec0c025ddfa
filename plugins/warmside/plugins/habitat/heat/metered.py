"""Watts that were measured, and what they say of other temperatures."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple


class Metered(NamedTuple):
    """Mean watts that were used, and degrees C of room and inside meanwhile, where noted."""

    watts: float
    room_c: float | None
    inside_c: float | None

    def at(self, inside_c: float, room_c: float) -> float | None:
        """Watts at other temperatures: heat lost goes with the difference. None if not noted."""
        if self.room_c is None or self.inside_c is None or self.inside_c <= self.room_c:
            return None
        return max(0.0, self.watts * (inside_c - room_c) / (self.inside_c - self.room_c))


def metered(data: Mapping[str, Any], described_w: float) -> Metered | None:
    """What an event tells; `described_w` are the watts of all sources as described.

    Watt-hours come before the share of the time, which needs the watts; None where neither tells.
    """
    watts = _watts(data, described_w)
    return None if watts is None else Metered(watts, data.get("outside_c"), data.get("inside_c"))


def _watts(data: Mapping[str, Any], described_w: float) -> float | None:
    used, hours, share = (data.get(k) for k in ("used_kwh", "over_hours", "on_percent"))
    if used is not None and hours:
        return float(1000 * used / hours)
    if share is not None and described_w > 0:
        return float(share / 100 * described_w)
    return None


def wrong(data: Mapping[str, Any]) -> Iterator[str]:
    """What is missing or cannot be, each in a line for the keeper."""
    if data.get("used_kwh") is not None and data.get("over_hours") is None:
        yield "a meter's reading needs the hours that it is over: --over 24h"
    room, inside = data.get("outside_c"), data.get("inside_c")
    if room is not None and inside is not None and inside <= room:
        yield f"inside ({inside:g} °C) is no warmer than the room ({room:g} °C): no heat is told"
