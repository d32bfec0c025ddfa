"""Sheds: the stage an animal is in, when the next is to be expected, what was left on, and why."""

from warmside.api import Command, Manifest, Setting, Unit

_CUSTOM = "keepers' custom (common practice, no source)"

MANIFEST = Manifest(
    name="shed",
    summary="Shed cycles: stage, next shed as a range, checks after it, what goes with bad sheds",
    hook_level=(2, 0),
    hooks="warmside.plugins.shed.hooks",
    commands=(
        Command("shed", "Sheds: stage, forecast, cycles.", "warmside.plugins.shed.commands:app"),
    ),
    settings=(
        Setting(
            "subadult_from",
            "age from which the forecast starts out from a subadult's intervals",
            365.0,
            _CUSTOM,
            Unit.AGE,
            30.0,
            7300.0,
        ),
        Setting(
            "adult_from",
            "age from which the forecast starts out from an adult's intervals",
            1095.0,
            _CUSTOM,
            Unit.AGE,
            60.0,
            14600.0,
        ),
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
    ),
    findings=(
        ("shed.spectacle", "a spectacle was left on at the last shed"),
        ("shed.retained", "skin was left on at the last shed"),
        ("shed.again", "skin was left on in two sheds running: time for a vet"),
        ("shed.late", "the shed is later than usual for the stage: a note, not an alarm"),
        ("shed.overdue", "the time since the last shed is unusually long: a note, not an alarm"),
        ("shed.twice", "a shed is dated twice"),
        ("shed.order", "shed stages are out of order"),
        ("shed.unrecorded", "a shed must have followed but is not on record"),
    ),
)
