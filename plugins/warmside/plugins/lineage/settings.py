"""The settings of the plugin."""

from __future__ import annotations

from warmside.api import Setting, Unit

_CUSTOM = "keepers' custom (common practice, no source)"

SETTINGS = (
    Setting(
        "kinship_limit",
        "a pair is told of whose young would be more inbred; 0.0625 is that of first cousins",
        0.0625,
        "no limit is known for reptiles (common practice, no source)",
        Unit.RATIO,
        0.0,
        0.5,
        per=("species",),
    ),
    Setting(
        "back_notice",
        "so many days before a loan ends it is told of",
        7.0,
        _CUSTOM,
        Unit.DAYS,
        0.0,
        90.0,
    ),
    Setting(
        "loan_young",
        "young that come until so many days after a loan count as young of the loan",
        180.0,
        _CUSTOM,
        Unit.DAYS,
        0.0,
        1500.0,
        per=("species",),
    ),
)
