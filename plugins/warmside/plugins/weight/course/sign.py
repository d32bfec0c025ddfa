"""What is judged of an animal, and what a check may find in it."""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum

from msgspec import Struct

from warmside.api import Level, LifeStage, Source
from warmside.plugins.weight.course.series import NONE, Weighings

YOUNG = (LifeStage.HATCHLING, LifeStage.JUVENILE)
"""Stages that gain from month to month; a subadult may pause (common practice, no source)."""


class Sign(StrEnum):
    """What a check found; the value is the finding's code."""

    LOSS = "weight.loss"
    WASTING = "weight.wasting"
    CENTILE_LINES = "weight.centile-lines"
    OFF_CHANNEL = "weight.off-channel"
    STALLED = "weight.stalled"
    FAST_GAIN = "weight.fast-gain"
    YEARS_GAIN = "weight.years-gain"
    AFTER_LAYING = "weight.after-laying"
    COOLING = "weight.cooling"


class WeightSign(Struct, frozen=True):
    """A sign with its level, its words, the weighings (event ids) and the rule's source.

    `change` is a part of body mass (negative for a loss), or a change of z for the centile signs.
    """

    sign: Sign
    level: Level
    words: str
    events: tuple[int, ...]
    source: Source
    change: float


class Course(Struct, frozen=True):
    """What is known of an animal; days as in `series`, lists in order of day.

    `weighings` are without suspected slips and less undigested meals. `laid` are days of clutches
    and litters, `cooled` pairs of begin and end (infinite while it lasts), `gravid` the same.
    `meals` are days on which it ate, `refused` days on which it ate nothing of what was offered.
    `slowing` is how the growth of its kind slows (see `pace`).
    """

    weighings: Weighings = NONE
    stage: LifeStage | None = None
    laid: Sequence[float] = ()
    sheds: Sequence[float] = ()
    cooled: Sequence[tuple[float, float]] = ()
    gravid: Sequence[tuple[float, float]] = ()
    meals: Sequence[float] = ()
    refused: Sequence[float] = ()
    slowing: float = 0.003
