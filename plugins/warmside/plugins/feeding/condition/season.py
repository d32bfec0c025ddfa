"""What is usual for a species: when it stops eating, when a fast goes to a vet, its winter rest."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from functools import cache

from msgspec import Struct

from warmside.api import Source, SourcedRow, sourced_rows
from warmside.plugins.feeding.energy.rates import Span

PACKAGE = "warmside.plugins.feeding"
REST, OPTIONAL, NONE = "rest", "optional", "none"


class UsualFast(Struct, frozen=True):
    """Who of a species usually stops eating: in which months, for how many weeks."""

    sex: str
    stages: tuple[str, ...]
    months: tuple[int, ...]
    weeks: Span

    def is_of(self, sex: str, stage: str | None) -> bool:
        """The fast is one of that sex and stage; of an unknown sex where it may be."""
        same = self.sex == "any" or sex not in ("male", "female") or self.sex == sex
        return same and stage in self.stages

    def covers(self, days: Sequence[date]) -> bool:
        """Most of the days lie in its months."""
        return 2 * sum(d.month in self.months for d in days) > len(days)


class Season(Struct, frozen=True):
    """The year of a species. `winter` is rest, optional or none; the rest holds for a rest alone.

    Temperatures in °C, `rest_weeks`, days without food before, least age in months, and the loss
    in percent of body mass at which it ends.
    """

    fasts: tuple[UsualFast, ...]
    winter: str
    rest_c: Span | None
    rest_weeks: Span
    stop_days: Span
    from_months: int
    loss_percent: float
    source: Source


@cache
def season_of(latin: str) -> Season | None:
    """The year of a species, or of its genus; None where nothing is known."""
    names = (" ".join(latin.split()[:2]), latin.split(" ")[0])
    for row in sourced_rows(PACKAGE, "seasons", "season"):
        if any(name in row["names"] for name in names):
            return _season(row)
    return None


@cache
def vet_days(form: str, stage: str | None) -> tuple[int, Source]:
    """Days without food, out of season, from which it goes to a vet; the least of an unknown."""
    rows = {form: row for row in sourced_rows(PACKAGE, "seasons", "vet") for form in row["forms"]}
    row = rows.get(form, rows["lizard"])
    return int(row["days"][stage] if stage else min(row["days"].values())), row.source


def _season(row: SourcedRow) -> Season:
    fasts = tuple(
        UsualFast(f["sex"], tuple(f["stages"]), tuple(f["months"]), (f["weeks"][0], f["weeks"][1]))
        for f in row["fast"]
    )
    rests = row["winter"] != NONE
    return Season(
        fasts,
        row["winter"],
        row.span("rest_c") if rests else None,
        row.span("rest_weeks") if rests else (0.0, 0.0),
        row.span("stop_days") if rests else (0.0, 0.0),
        int(row.get("from_months", 0)),
        float(row["loss_percent"]),
        row.source,
    )
