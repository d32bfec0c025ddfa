"""What the keeper may set; a part of the manifest, so it imports next to nothing."""

from warmside.api import Setting, Unit

SETTINGS = (
    Setting(
        "most",
        "temperature above which a place is too warm, wherever a logger hangs in it",
        35.0,
        "rule of thumb [common practice, no source]",
        Unit.TEMPERATURE,
        10,
        60,
        per=("species", "enclosure"),
    ),
    Setting(
        "silent_hours",
        "hours without a reading after which a logger counts as silent",
        36.0,
        "rule of thumb [common practice, no source]",
        Unit.HOURS,
        1,
        8760,
    ),
    Setting(
        "probe_days",
        "days after which a probe is held beside a thermometer again; 0 asks for none",
        180.0,
        "rule of thumb [common practice, no source]",
        Unit.DAYS,
        0,
        3650,
    ),
)
