"""A climate logger for warmside: what the probes in enclosures measured, and what to look at."""

from warmside.api import Answers, Command, Manifest, Unit
from warmside_climatelog.settings import SETTINGS

MANIFEST = Manifest(
    name="climatelog",
    summary="Readings of temperature loggers, their days, and which probe wants a look",
    hook_level=(2, 0),
    hooks="warmside_climatelog.hooks",
    commands=(
        Command(
            "climatelog",
            "Temperature loggers.",
            "warmside_climatelog.commands:app",
            reads=("list", "day", "days", "recent"),
        ),
    ),
    settings=SETTINGS,
    findings=(
        ("climatelog.silent", "A logger has given no reading for longer than it should."),
        ("climatelog.warm", "A logger measured more than the place should have."),
    ),
    tables="warmside_climatelog.tables",
    migrations="warmside_climatelog.migrations",
    head="climatelog0001",
    answers=(Answers("zone temperature", Unit.TEMPERATURE),),
    values="warmside_climatelog.climate.limits:shipped",
)
