"""What is known of a species: body form, sizes, life stages, climate, safe limits, UV zone."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from functools import cache

from msgspec import Struct

from warmside.core.figures.sourced import SourcedRow
from warmside.core.record.species.files import species_row
from warmside.core.values.basis import Source


class Form(StrEnum):
    """The build of an animal, as far as signs and scores differ by it."""

    SNAKE = "snake"
    LIZARD = "lizard"
    TORTOISE = "tortoise"
    TURTLE = "turtle"


FORM_OF_GROUP = {
    **dict.fromkeys(("python", "boa", "colubrid", "viper", "elapid"), Form.SNAKE),
    **dict.fromkeys(("gecko", "agama", "skink", "monitor", "chameleon"), Form.LIZARD),
    **dict.fromkeys(("iguana", "lizard"), Form.LIZARD),
    "tortoise": Form.TORTOISE,
    "turtle": Form.TURTLE,
}
"""The form by the collection's group; `other` has none."""


class Span(Struct, frozen=True):
    """From `low` to `high`, both included, with where that comes from."""

    low: float
    high: float
    source: Source


class StageLimits(Struct, frozen=True):
    """From which mass (g) an animal of a sex counts as each stage, and from which age as adult.

    None is what is not known; age in days.
    """

    juvenile_g: float | None
    subadult_g: float | None
    adult_g: float | None
    adult_days: float | None
    mass_source: Source | None
    age_source: Source | None


class SafeLimits(Struct, frozen=True):
    """Temperatures (°C) that an animal must not be left in.

    The coolest place that it can reach: above `hot_act` for an hour wants acting now, above
    `hot_emergency` is an emergency. The warmest place: below `cold_act` for a night, outside a
    planned rest, wants acting now, below `cold_emergency` is one. `touch`: a surface that it can
    touch, above which the heater is cut. `in_water`: the places are in the water.
    """

    hot_act: float
    hot_emergency: float
    cold_act: float
    cold_emergency: float
    touch: float | None
    in_water: bool
    source: Source


class SpeciesFigures(Struct, frozen=True):
    """The figures of a species; None is what no row gives. Temperatures in °C, humidity in %.

    `warm` is the warm side, or the surface where it basks (`basks`); `cool` the cool side, or the
    water (`limits.in_water`). Spans and limits of both sexes are by `female` and `male`.
    """

    scientific: str
    form: Form
    adult_g: Mapping[str, Span]
    stages: Mapping[str, StageLimits]
    warm: Span | None
    cool: Span | None
    night: Span | None
    basks: bool
    limits: SafeLimits | None
    humidity: Span | None
    too_dry: float | None
    uv_zone: Span | None
    note: str


@cache
def species_figures(scientific: str) -> SpeciesFigures | None:
    """The figures of a species by its scientific name, also an older one or a subspecies'."""
    row = species_row(scientific)
    return _figures(row) if row is not None else None


def _figures(row: SourcedRow) -> SpeciesFigures:
    sexes = ("female", "male")
    sizes = {s: _span(row, f"adult_g_{s}", "adult_g") or _span(row, "adult_g") for s in sexes}
    return SpeciesFigures(
        scientific=row["scientific"],
        form=Form(row["form"]),
        adult_g={s: size for s, size in sizes.items() if size},
        stages={s: _stages(row, s) for s in sexes},
        warm=_span(row, "warm_c", "temperature"),
        cool=_span(row, "cool_c", "temperature"),
        night=_span(row, "night_c", "temperature"),
        basks=row.get("basks", False),
        limits=_limits(row) if "too_hot_c" in row else None,
        humidity=_span(row, "humidity_percent", "humidity"),
        too_dry=row.get("too_dry_percent"),
        uv_zone=_span(row, "uv_zone", "uv"),
        note=row.get("note", ""),
    )


def _span(row: SourcedRow, key: str, part: str = "") -> Span | None:
    return Span(*row.span(key), row.source_of(part or key)) if key in row else None


def _stages(row: SourcedRow, sex: str) -> StageLimits:
    starts = row.get(f"stage_g_{sex}", row.get("stage_g"))
    juvenile, subadult, adult = starts or (None, None, None)
    days = row.get("adult_days")
    return StageLimits(
        juvenile,
        subadult,
        adult,
        days,
        row.source_of("stage_g") if starts else None,
        row.source_of("adult_days") if days else None,
    )


def _limits(row: SourcedRow) -> SafeLimits:
    (hot, hottest), (cold, coldest) = row["too_hot_c"], row["too_cold_c"]
    return SafeLimits(
        float(hot),
        float(hottest),
        float(cold),
        float(coldest),
        row.get("touch_c"),
        row.get("cool_is_water", False),
        row.source_of("limits"),
    )
