"""Rhythms of the keeper's own: how often something is done for an animal or an enclosure."""

from warmside.api import Command, Manifest

MANIFEST = Manifest(
    name="rhythm",
    summary="Tasks at the keeper's own intervals: weigh every 30 days, clean every 28",
    hook_level=(2, 0),
    hooks="warmside.plugins.rhythm.hooks",
    commands=(
        Command(
            "rhythm",
            "How often something is done.",
            "warmside.plugins.rhythm.commands:app",
            reads=("list",),
        ),
    ),
    tables="warmside.plugins.rhythm.tables",
    migrations="warmside.plugins.rhythm.migrations",
    head="rhythm0002",
)
