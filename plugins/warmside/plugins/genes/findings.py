"""Findings about recorded genes."""

from __future__ import annotations

from warmside.api import About, Basis, Finding, Level
from warmside.plugins.genes.reading.doubts import Doubt
from warmside.plugins.genes.telling.wording import MENDEL

LEVELS = {"genes.clash": Level.LOOK_SOON}


def finding(doubt: Doubt) -> Finding:
    """A doubt about genes is never urgent: it matters before a pairing."""
    return Finding(
        doubt.code,
        LEVELS.get(doubt.code, Level.NOTE),
        doubt.words,
        Basis(MENDEL.rule, MENDEL.source, doubt.events),
        About(doubt.animal_id),
    )
