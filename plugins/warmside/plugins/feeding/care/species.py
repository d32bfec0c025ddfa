"""How a species is fed: diet, life stages, meal size, interval, temperatures, width rule."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from functools import cache

from msgspec import Struct
from msgspec.structs import replace

from warmside.api import OWN_RECORDS, BadInput, Source, SourcedRow, sourced_rows
from warmside.plugins.feeding.energy.rates import Day, Span, mixed_day

PACKAGE = "warmside.plugins.feeding"


class Stage(StrEnum):
    """Life stage by mass; for animals that have reached a size, not an age."""

    HATCHLING = "hatchling"
    JUVENILE = "juvenile"
    ADULT = "adult"


class Diet(StrEnum):
    """What the species eats."""

    VERTEBRATES = "vertebrates"
    INSECTS = "insects"
    INSECTS_AND_PLANTS = "insects and plants"
    FRUIT_AND_INSECTS = "fruit and insects"


class Species(Struct, frozen=True):
    """A row of the species table, or the defaults of a group (`is_default`).

    Spans by stage: `meal_percent` of body mass, `interval_days`, `growth` in percent a week,
    `plant_percent` of the meal by mass. Temperatures in °C; `width_ratio` of prey to body.
    """

    latin: str
    common: str
    group: str
    diet: Diet
    prey: tuple[str, ...]
    plants: tuple[str, ...]
    juvenile_from_g: float
    adult_from_g: float
    meal_percent: Mapping[Stage, Span]
    interval_days: Mapping[Stage, Span]
    growth: Mapping[Stage, Span]
    plant_percent: Mapping[Stage, Span]
    day_c: Span
    night_c: Span
    day_hours: float
    width_ratio: Span
    note: str
    source: Source
    temperature_source: Source
    interval_source: Source
    meal_source: Source
    is_default: bool

    @property
    def starts_g(self) -> tuple[tuple[Stage, float], ...]:
        """The stages with the mass from which each counts."""
        return (
            (Stage.HATCHLING, 0.0),
            (Stage.JUVENILE, self.juvenile_from_g),
            (Stage.ADULT, self.adult_from_g),
        )

    @property
    def usual_day(self) -> Day:
        """The temperatures to reckon with where the animal's own are not known."""
        return mixed_day(self.day_c, self.night_c, self.day_hours)

    def stage(self, mass_g: float) -> Stage:
        """The life stage at a mass in g."""
        return [stage for stage, start in self.starts_g if mass_g >= start][-1]

    def interval(self, stage: Stage | None) -> Span:
        """Days between meals; for an unknown stage the span over all stages."""
        if stage:
            return self.interval_days[stage]
        spans = self.interval_days.values()
        return min(s[0] for s in spans), max(s[1] for s in spans)

    @property
    def words(self) -> str:
        """Says plainly where only the defaults of the group are known."""
        if not self.is_default:
            return self.note
        return f"no feeding row for this species: the figures are for {self.common}; ask your vet"


@cache
def species_rows() -> Mapping[str, Species]:
    """The species table by scientific name."""
    groups = {row["group"]: row for row in sourced_rows(PACKAGE, "species", "group")}
    rows = sourced_rows(PACKAGE, "species", "species")
    whole = (SourcedRow({**groups[row["group"]], **row}) for row in rows)
    return {row["latin"]: _species(row, False) for row in whole}


@cache
def group_rows() -> Mapping[str, Species]:
    """The defaults by the collection's groups that they stand for."""
    return {
        family: _species(row, True)
        for row in sourced_rows(PACKAGE, "species", "group")
        for family in row["families"]
    }


def species_for(latin: str, group: str) -> Species | None:
    """The row of a species (or of the species of a subspecies), or its group's defaults.

    `group` is the collection's (python, gecko). None where neither is known (tortoises, turtles,
    monitors): then nothing can be said.
    """
    binomial = " ".join(latin.split()[:2]).capitalize()
    found = species_rows().get(binomial) or group_rows().get(group.strip().lower())
    return replace(found, latin=latin) if found and found.is_default else found


def with_own(
    species: Species,
    *,
    interval_days: Span | None = None,
    meal_percent: Span | None = None,
    prey: tuple[str, ...] | None = None,
) -> Species:
    """The species as the keeper feeds this animal: own values replace the row's, marked so.

    `prey` are kinds (mouse) or class codes (mouse-adult).
    """
    if interval_days:
        days = _checked(interval_days, 1.0, 180.0, "interval", "days")
        own_days = dict.fromkeys(Stage, days)
        species = replace(species, interval_days=own_days, interval_source=OWN_RECORDS)
    if meal_percent:
        share = _checked(meal_percent, 0.5, 60.0, "meal size", "percent of body mass")
        species = replace(
            species, meal_percent=dict.fromkeys(Stage, share), meal_source=OWN_RECORDS
        )
    return replace(species, prey=prey) if prey else species


def _checked(pair: Span, least: float, most: float, what: str, unit: str) -> Span:
    low, high = sorted(pair)
    if not least <= low <= high <= most:
        raise BadInput(f"{what} {low:g} to {high:g} {unit}; give {least:g} to {most:g}")
    return low, high


def _by_stage(row: SourcedRow, key: str) -> Mapping[Stage, Span]:
    return {stage: SourcedRow(row[key]).span(stage.value) for stage in Stage}


def _species(row: SourcedRow, is_default: bool) -> Species:
    source = row.source
    return Species(
        row["latin"],
        row["common"],
        row["group"],
        Diet(row["diet"]),
        tuple(row["prey"]),
        tuple(row["plants"]),
        float(row["juvenile_from_g"]),
        float(row["adult_from_g"]),
        _by_stage(row, "meal_percent"),
        _by_stage(row, "interval_days"),
        _by_stage(row, "growth_percent_per_week"),
        _by_stage(row, "plant_percent"),
        row.span("day_c"),
        row.span("night_c"),
        float(row["day_hours"]),
        row.span("width_ratio"),
        row.get("note", ""),
        source,
        row.source_of("temperature"),
        source,
        source,
        is_default,
    )
