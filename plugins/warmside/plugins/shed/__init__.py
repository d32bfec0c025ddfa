"""Sheds: the stage an animal is in, when the next is to be expected, what was left on, and why."""

from warmside.api import Answers, Command, Manifest, Unit
from warmside.plugins.shed.settings import SETTINGS

MANIFEST = Manifest(
    name="shed",
    summary="Stage of the cycle, next shed as a range, checks after it, what goes with bad sheds",
    hook_level=(2, 0),
    hooks="warmside.plugins.shed.hooks",
    commands=(
        Command(
            "shed",
            "Sheds: stage, forecast, cycles.",
            "warmside.plugins.shed.commands:app",
            reads=("show", "forecast", "cycles", "why"),
        ),
    ),
    settings=SETTINGS,
    answers=(Answers("days to slough", Unit.DAYS),),
    findings=(
        ("shed.spectacle", "a spectacle was left on at the last shed"),
        ("shed.retained", "skin was left on at the last shed"),
        ("shed.again", "skin was left on in two sheds running: time for a vet"),
        ("shed.late", "the shed is later than usual for the stage: a note, not an alarm"),
        (
            "shed.overdue",
            "the time since the last shed is unusually long: a note, not an alarm, for two weeks",
        ),
        ("shed.twice", "a shed is dated twice"),
        ("shed.order", "shed stages are out of order"),
        ("shed.unrecorded", "a shed must have followed but is not on record"),
    ),
)
