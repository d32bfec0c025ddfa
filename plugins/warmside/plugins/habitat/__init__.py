"""Habitat: the enclosure described, measured, and what it must do."""

from warmside.api import Answers, Command, Manifest, Unit
from warmside.plugins.habitat.settings import SETTINGS

MANIFEST = Manifest(
    name="habitat",
    summary="Air, heat, light and room of an enclosure, as described and measured",
    hook_level=(2, 1),
    hooks="warmside.plugins.habitat.hooks",
    commands=(
        Command(
            "habitat",
            "Habitat: air, heat, light and room.",
            "warmside.plugins.habitat.commands:app",
            reads=(
                "air",
                "water",
                "size",
                "space",
                "light",
                "loggers",
                "zones",
                "day",
                "show",
                "heat",
                "sweat",
                "uv",
            ),
        ),
    ),
    settings=SETTINGS,
    answers=(
        Answers("hours without heat", Unit.HOURS),
        Answers("length", Unit.LENGTH),
        Answers("zone temperature", Unit.TEMPERATURE),
    ),
    findings=(
        ("habitat.hot", "the coolest place measured was too hot for who lives there"),
        ("habitat.cold", "the warmest place measured was too cold for who lives there"),
        ("habitat.heat", "a warm side without heat while the lights are on"),
        ("habitat.overheats", "a warm side far hotter than it should be: heat without control"),
        ("habitat.silent", "a logger that has stopped"),
        ("habitat.unread", "a logger that was long not read out"),
        ("habitat.hide", "the warmest or the coolest zone has no hide"),
        ("habitat.water", "no water bowl is described"),
        ("habitat.thermostat", "a heat source has no thermostat"),
        ("habitat.guard", "the animal can reach a heat source without a guard"),
        ("habitat.light", "an animal that bears light badly cannot leave the light"),
        ("habitat.dry", "the air is too dry for an animal that sheds soon"),
        ("habitat.uv", "the UV index measured is not what the UV zone of who is inside asks for"),
        ("habitat.humid", "a shed may be near and there is no humid hide"),
    ),
    tables="warmside.plugins.habitat.tables",
    migrations="warmside.plugins.habitat.migrations",
    head="habitat0002",
)
