"""Lineage: families, how related animals are, and pedigrees drawn."""

from warmside.api import Command, Manifest

MANIFEST = Manifest(
    name="lineage",
    summary="Families: kinship and inbreeding, founders, pedigrees drawn",
    hook_level=(2, 0),
    hooks="warmside.plugins.lineage.hooks",
    commands=(
        Command(
            "lineage",
            "Lineage: families, kinship, pedigrees.",
            "warmside.plugins.lineage.commands:app",
        ),
    ),
)
