"""The settings of the plugin: looks at old skin, what counts as dry."""

from __future__ import annotations

from warmside.api import Setting, Unit

_CUSTOM = "keepers' custom (common practice, no source)"

SETTINGS = (
    Setting(
        "recheck_every",
        "days between two looks at skin that was left on; around toes and tail tip every day",
        3.0,
        _CUSTOM,
        Unit.DAYS,
        1.0,
        14.0,
    ),
    Setting(
        "dry_below",
        "relative humidity below which a shed counts as one in dry air",
        50.0,
        _CUSTOM,
        Unit.PERCENT,
        1.0,
        99.0,
    ),
)
