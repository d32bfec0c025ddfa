"""What ships of a species' season: gates, cooling, from mating and shed to laying, eggs, young."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from msgspec import Struct

from warmside.api import Mark, ShippedValue, Source, SourcedRow, sourced_rows

MONTH = 365.25 / 12
PACKAGE = "warmside.plugins.lineage"


class Span(Struct, frozen=True):
    """From `low` to `high`, both included, with where that comes from."""

    low: float
    high: float
    source: Source

    def plus(self, other: Span) -> Span:
        """One after the other; as sure as the less sure of both."""
        marks = list(Mark)
        source = max((self.source, other.source), key=lambda s: marks.index(s.mark))
        return Span(self.low + other.low, self.high + other.high, source)


class SeasonFigures(Struct, frozen=True):
    """The season of a species; spans in days unless named otherwise, None is what no row gives.

    `laying` is also birth, where young are born alive (`bears_live`). `again` is from one clutch to
    the next; `largest` the clutch up to which nothing is asked.
    """

    bears_live: bool
    mating_to_laying: Span | None
    ovulation_to_shed: Span | None
    shed_to_laying: Span | None
    again: Span | None
    incubation: Span | None
    incubation_mean: float | None
    mean_source: Source | None
    incubation_c: Span | None
    cooling_weeks: Span | None
    cooling_c: Span | None
    cooling_note: str
    first_shed: Span | None
    largest: int | None
    sex_note: str

    @property
    def ovulation_to_laying(self) -> Span | None:
        """From ovulation over the shed to laying."""
        if self.ovulation_to_shed is None or self.shed_to_laying is None:
            return None
        return self.ovulation_to_shed.plus(self.shed_to_laying)

    @property
    def shed_from(self) -> int | None:
        """From how many days after ovulation on a shed is taken as the one before laying.

        None where the species has no such shed. Half of the least is early enough for all that
        were seen, and late enough for a shed that was on its way (common practice, no source).
        """
        if self.shed_to_laying is None:
            return None
        return round(self.ovulation_to_shed.low / 2) if self.ovulation_to_shed else 1

    @property
    def longest(self) -> Span | None:
        """From the earliest day on which she can have become gravid to the latest of laying."""
        return self.ovulation_to_laying or self.mating_to_laying


@cache
def season_figures(scientific: str) -> SeasonFigures | None:
    """The season of a species by its scientific name."""
    row = next((r for r in _rows() if r["species"] == scientific), None)
    return None if row is None else _figures(row)


def _rows() -> tuple[SourcedRow, ...]:
    return sourced_rows(PACKAGE, "seasons")


def _figures(row: SourcedRow) -> SeasonFigures:
    mean = row.get("incubation_mean")
    return SeasonFigures(
        bears_live=row["bears_live"],
        mating_to_laying=_span(row, "mating_to_laying"),
        ovulation_to_shed=_span(row, "ovulation_to_shed"),
        shed_to_laying=_span(row, "shed_to_laying"),
        again=_span(row, "again_days", "again"),
        incubation=_span(row, "incubation_days", "incubation"),
        incubation_mean=mean,
        mean_source=row.source_of("mean") if mean else None,
        incubation_c=_span(row, "incubation_c"),
        cooling_weeks=_span(row, "cooling_weeks"),
        cooling_c=_span(row, "cooling_c"),
        cooling_note=row.get("cooling_note", ""),
        first_shed=_span(row, "first_shed"),
        largest=row.get("largest"),
        sex_note=row.get("sex_note", ""),
    )


def _span(row: SourcedRow, key: str, part: str = "") -> Span | None:
    return Span(*row.span(key), row.source_of(part or key)) if key in row else None


def shipped() -> Iterator[ShippedValue]:
    """The gates of the species that ship: mass in g, ages and rest in days."""
    for row in _rows():
        for name, key, times in GATES:
            if key in row:
                yield ShippedValue(row["species"], name, float(row[key] * times), row.source)


GATES = (
    ("female_mass", "female_g", 1),
    ("female_age", "female_months", MONTH),
    ("male_mass", "male_g", 1),
    ("male_age", "male_months", MONTH),
    ("rest_days", "rest_days", 1),
)
