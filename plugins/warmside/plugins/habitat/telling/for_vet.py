"""What a vet asks about an enclosure beside what the keeper read: lamps, and what loggers say."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from warmside.api import Display, Section, Words, counted, format_quantity, sheets
from warmside.plugins.habitat.described.enclosure import Enclosure, Light
from warmside.plugins.habitat.logs.probes import Measure
from warmside.plugins.habitat.telling.zones import Measured


def section(
    found: Enclosure | None, measured: Sequence[Measured], days: int, on: date, shown: Display
) -> Iterator[Section]:
    """Light, heat and what was logged; nothing where nothing of it is known."""
    words = [*_logged(measured, days, shown), *(_described(found, on) if found else ())]
    if words:
        yield Section("Set-up", tuple(Words(text) for text in words), sheets.Place.HOUSING)


def _described(found: Enclosure, on: date) -> Iterator[str]:
    lights = "; ".join(_lamp(light, on) for light in found.lights)
    heats = ", ".join(dict.fromkeys(heat.kind for heat in found.heats))
    yield f"light: {lights or 'none described'}; heat: {heats or 'none described'}"


def _lamp(light: Light, on: date) -> str:
    uv = f", UV index {light.uv_index:g} where it basks" if light.uv_index else ""
    old = f", in use for {counted((on - light.since).days, 'day')}" if light.since else ""
    return f"{light.kind}, {light.hours:g} hours a day{uv}{old}"


def _logged(measured: Sequence[Measured], days: int, shown: Display) -> Iterator[str]:
    said = []
    for one in measured:
        times = ((one.summary.day, "by day"), (one.summary.night, "by night"))
        unit = one.probe.measure.unit
        spans = [
            f"{' to '.join(format_quantity(end, unit, shown) for end in (x.low, x.high))} {when}"
            for x, when in times
            if x is not None
        ]
        what = "" if one.probe.measure is Measure.AIR else f" ({one.probe.measure.value})"
        said.append(f"{one.probe.zone}{what} {', '.join(spans)}")
    if said:
        yield f"logged over {counted(days, 'day')}: {'; '.join(said)}"
