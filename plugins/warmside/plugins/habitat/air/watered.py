"""What it takes to raise the air of an enclosure to a humidity, and how long it stays."""

from __future__ import annotations

import math

from msgspec import Struct

from warmside.api import BadInput
from warmside.plugins.habitat.air.moist import check_air, vapour_g_per_m3
from warmside.plugins.habitat.air.water import (
    bowl_g_per_h,
    grams_to_reach,
    hours_to_dry,
    humidity_kept_percent,
)


class Watered(Struct, frozen=True):
    """Grams for the air alone, hours until half of them is lost, grams an hour to keep it up, and
    what open water gives an hour at most and which humidity that keeps up (None without a bowl)."""

    grams: float
    half_lost_h: float
    kept_up_g_per_h: float
    bowl_g_per_h: float | None
    bowl_keeps_percent: float | None


def watered(
    volume_m3: float,
    celsius: float,
    percents: tuple[float, float],
    changes_per_h: float,
    bowl_mm: float | None,
) -> Watered:
    """Air that has the room's temperature and vapour, raised from one humidity to another.

    `percents` are the relative humidities now, also of the air that comes in, and wanted. BadInput
    where nothing is to be added, or for air that no enclosure has.
    """
    now, wanted = percents
    for percent in percents:
        check_air(celsius, percent)
    if volume_m3 <= 0:
        raise BadInput("width, depth and height are more than 0")
    if wanted <= now:
        raise BadInput(f"{wanted:g} % is not more than {now:g} %: nothing is to be added")
    grams = grams_to_reach(volume_m3, celsius, now, wanted)
    room, then = vapour_g_per_m3(celsius, now), vapour_g_per_m3(celsius, wanted)
    half = hours_to_dry(then, room, (room + then) / 2, changes_per_h)
    assert half is not None  # half way down to the room is always reached
    area = math.pi * (bowl_mm / 2000) ** 2 if bowl_mm else None
    given = bowl_g_per_h(area, celsius, celsius, now) if area else None
    keeps = None
    if given is not None:
        keeps = humidity_kept_percent(celsius, celsius, now, given, changes_per_h * volume_m3)
    return Watered(grams, half, grams * changes_per_h, given, keeps)
