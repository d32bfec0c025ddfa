"""A log of rain chambers for warmside, and when it should rain again."""

from warmside.api import Command, Manifest, Setting, Unit

MANIFEST = Manifest(
    name="rainlog",
    summary="Rain chambers: how long it rained, and when it should again",
    hook_level=(2, 0),
    hooks="warmside_rainlog.hooks",
    commands=(Command("rainlog", "Rain chambers.", "warmside_rainlog.commands:app"),),
    settings=(
        Setting(
            "most_minutes",
            "Rain within a day, in minutes, beyond which a finding asks to let the place dry.",
            120,
            "rule of thumb [common practice, no source]",
            Unit.COUNT,
            1,
            1440,
        ),
    ),
    findings=(("rainlog.soaked", "It rained longer within a day than the keeper's limit."),),
    tables="warmside_rainlog.tables",
    migrations="warmside_rainlog.migrations",
    head="rainlog0001",
)
