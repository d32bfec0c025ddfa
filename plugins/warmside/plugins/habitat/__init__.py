"""Habitat: the enclosure described, measured, and what it must do."""

from warmside.api import Command, Manifest

MANIFEST = Manifest(
    name="habitat",
    summary="Habitat: air, heat and room of an enclosure",
    hook_level=(2, 0),
    hooks="warmside.plugins.habitat.hooks",
    commands=(
        Command(
            "habitat",
            "Habitat: air, heat, light and room.",
            "warmside.plugins.habitat.commands:app",
        ),
    ),
)
