"""Labels, cards and signs that scan: for enclosures, animals, doors, dangers and sitters."""

from warmside.api import Command, Manifest
from warmside.plugins.labels.settings import SETTINGS

MANIFEST = Manifest(
    name="labels",
    summary="Labels, cards and signs as PDF, with codes that scan",
    hook_level=(2, 1),
    hooks="warmside.plugins.labels.hooks",
    commands=(
        Command(
            "labels",
            "Labels, cards and signs to print.",
            "warmside.plugins.labels.commands:app",
            reads=("stocks", "lines", "hazards", "notes", "calibrate list"),
        ),
        Command(
            "scan",
            "Open what a scanner typed.",
            "warmside.plugins.labels.commands.scan:app",
            reads=("",),
        ),
    ),
    settings=SETTINGS,
    tables="warmside.plugins.labels.tables",
    migrations="warmside.plugins.labels.migrations",
    head="labels0001",
)
