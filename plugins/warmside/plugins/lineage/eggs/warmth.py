"""Whether an incubation temperature is one that eggs of a species are kept at."""

from __future__ import annotations

from warmside.plugins.lineage.season.figures import SeasonFigures

COOLER_C, WARMER_C = 3.0, 1.0
"""So far beside the usual range nothing is asked: too warm kills sooner than too cool (common
practice, no source)."""


def warmth_doubts(kept_c: float | None, figures: SeasonFigures | None) -> list[str]:
    """What is asked of a temperature in °C; nothing where none is known for the species."""
    span = figures.incubation_c if figures else None
    if kept_c is None or span is None:
        return []
    if span.low - COOLER_C <= kept_c <= span.high + WARMER_C:
        return []
    return [f"eggs at {kept_c:g} °C; {span.low:g} to {span.high:g} °C are usual for the species"]
