"""A reading of an enclosure against what an animal needs: beyond safe limits, or unusual.

A cool side that is too hot, or a warm side that is too cold, leaves no place to go; a hot basking
spot alone does not. Margins around the usual ranges are ours (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

MARGIN_C = 3.0
MARGIN_PERCENT = 15.0


class Reading(Struct, frozen=True):
    """Temperatures in °C and humidity in %, None where not read; `by_day` if surely by day."""

    warm_c: float | None
    cool_c: float | None
    humidity: float | None
    by_day: bool


class Needs(Struct, frozen=True):
    """What an animal needs, None where not known: pairs are (act now, emergency) or (low, high)."""

    hot: tuple[float, float] | None = None
    cold: tuple[float, float] | None = None
    touch: float | None = None
    basks: bool = False
    warm: tuple[float, float] | None = None
    night_low: float | None = None
    cool_high: float | None = None
    humidity: tuple[float, float] | None = None
    rests: bool = False


class Judged(Struct, frozen=True):
    """What is wrong: `unsafe` wants acting now; value and limit in °C, or % for humidity."""

    unsafe: bool
    what: str
    value: float
    limit: float
    emergency: bool = False

    @property
    def is_far(self) -> bool:
        """Whether one reading is enough to be looked at: twice the margin beyond what is usual."""
        return abs(self.value - self.limit) >= 2 * (MARGIN_PERCENT if self.is_damp else MARGIN_C)

    @property
    def is_damp(self) -> bool:
        """Whether it is of the humidity, in %."""
        return self.what.startswith(("drier", "damper"))


def judged(reading: Reading, needs: Needs) -> tuple[Judged, ...]:
    """All that is wrong; what is unsafe stands alone for its side."""
    unsafe = (*_too_hot(reading, needs), *_too_cold(reading, needs))
    return unsafe or (*_unusual(reading, needs), *_humidity(reading, needs))


def _too_hot(reading: Reading, needs: Needs) -> Iterator[Judged]:
    coolest = reading.cool_c
    if coolest is None and not needs.basks:
        coolest = reading.warm_c
    if needs.hot and coolest is not None and coolest > needs.hot[0]:
        where = "cool side" if reading.cool_c is not None else "only place read"
        yield Judged(True, f"{where} too hot", coolest, needs.hot[0], coolest > needs.hot[1])
    elif needs.touch and reading.warm_c is not None and reading.warm_c > needs.touch + 1.0:
        yield Judged(True, "warm side too hot to touch", reading.warm_c, needs.touch)


def _too_cold(reading: Reading, needs: Needs) -> Iterator[Judged]:
    warmest = reading.warm_c
    if needs.cold and not needs.rests and warmest is not None and warmest < needs.cold[0]:
        yield Judged(True, "warm side too cold", warmest, needs.cold[0], warmest < needs.cold[1])


def _unusual(reading: Reading, needs: Needs) -> Iterator[Judged]:
    warm, cool = reading.warm_c, reading.cool_c
    if needs.warm and warm is not None:
        least = needs.warm[0] if reading.by_day else needs.night_low
        if warm > needs.warm[1] + MARGIN_C:
            yield Judged(False, "warm side warmer than usual", warm, needs.warm[1])
        elif least is not None and warm < least - MARGIN_C and not needs.rests:
            yield Judged(False, "warm side colder than usual", warm, least)
    if cool is not None and needs.cool_high is not None and cool > needs.cool_high + MARGIN_C:
        yield Judged(False, "cool side warmer than usual", cool, needs.cool_high)
    low = needs.night_low
    if cool is not None and low is not None and cool < low - MARGIN_C and not needs.rests:
        yield Judged(False, "cool side colder than usual", cool, low)


def _humidity(reading: Reading, needs: Needs) -> Iterator[Judged]:
    if needs.humidity and reading.humidity is not None:
        low, high = needs.humidity
        if reading.humidity < low - MARGIN_PERCENT:
            yield Judged(False, "drier than usual", reading.humidity, low)
        elif reading.humidity > high + MARGIN_PERCENT:
            yield Judged(False, "damper than usual", reading.humidity, high)
