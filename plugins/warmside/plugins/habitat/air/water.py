"""Water that goes into the air: to reach a humidity, from a bowl, by misting."""

from __future__ import annotations

import math

from warmside.plugins.habitat.air.moist import saturation_pa, vapour_g_per_m3, vapour_pa

LATENT_KJ_PER_KG = 2400.0
"""Heat of evaporation at room temperature, as the formula below is quoted."""


def grams_to_reach(volume_m3: float, celsius: float, now_percent: float, percent: float) -> float:
    """Grams of water that raise the humidity of still air; 0 where it is humid enough.

    What walls and substrate take up comes on top.
    """
    now, then = vapour_g_per_m3(celsius, now_percent), vapour_g_per_m3(celsius, percent)
    return max(0.0, (then - now) * volume_m3)


def bowl_g_per_h(
    area_m2: float, water_c: float, air_c: float, humidity_percent: float, air_m_per_s: float = 0.0
) -> float:
    """Evaporation of open water in g/h, at most: still air in an enclosure takes less.

    A (pw - pa) (0.089 + 0.0782 V) / Y, with kPa, m/s and kJ/kg (ASHRAE Handbook, HVAC
    Applications, chapter on natatoriums; the SI form from memory, the same as the printed IP form).
    """
    pressure_kpa = (saturation_pa(water_c) - vapour_pa(air_c, humidity_percent)) / 1000
    per_second = area_m2 * pressure_kpa * (0.089 + 0.0782 * air_m_per_s) / LATENT_KJ_PER_KG
    return max(0.0, per_second * 3600 * 1000)


def humidity_kept_percent(
    celsius: float, room_c: float, room_percent: float, g_per_h: float, m3_per_h: float
) -> float:
    """The humidity at which evaporation and ventilation balance, in %; 100 is the most.

    Air of the room comes in at its own vapour, air of the enclosure goes out at its own.
    """
    room = vapour_g_per_m3(room_c, room_percent)
    inside = room + g_per_h / m3_per_h
    return min(100.0, 100 * inside / vapour_g_per_m3(celsius, 100))


def hours_to_dry(
    g_per_m3_now: float, g_per_m3_room: float, g_per_m3_target: float, changes_per_h: float
) -> float | None:
    """Hours until misted air is down to a target by ventilation alone; None where it never is.

    Well mixed air: the difference to the room falls by exp(-n t) (mass balance).
    """
    above, wanted = g_per_m3_now - g_per_m3_room, g_per_m3_target - g_per_m3_room
    if above <= wanted:
        return 0.0
    if wanted <= 0 or changes_per_h <= 0:
        return None
    return math.log(above / wanted) / changes_per_h
