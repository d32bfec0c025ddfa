"""The settings of the plugin: what is assumed of unrelated animals, and how sure is sure."""

from __future__ import annotations

from warmside.api import Setting, Unit

SETTINGS = (
    Setting(
        "assumed_frequency",
        "assumed share of a recessive allele among animals of which nothing is known",
        1.0,
        "an assumption, nothing was measured (common practice, no source)",
        Unit.PERCENT,
        0.0001,
        50.0,
        per=("species",),
    ),
    Setting(
        "doubt_below",
        "a stated het is called doubtful when the young leave it less likely than this",
        5.0,
        "an assumption, nothing was measured (common practice, no source)",
        Unit.PERCENT,
        0.1,
        50.0,
    ),
)
