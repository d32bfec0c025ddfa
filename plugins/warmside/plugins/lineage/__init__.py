"""Lineage: families, how related animals are, pedigrees drawn, and loans."""

from warmside.api import Answers, Command, Manifest, Unit
from warmside.plugins.lineage.settings import SETTINGS

MANIFEST = Manifest(
    name="lineage",
    summary="Families: kinship and inbreeding, founders, pedigrees drawn, loans",
    hook_level=(2, 0),
    hooks="warmside.plugins.lineage.hooks",
    commands=(
        Command(
            "lineage",
            "Lineage: families, kinship, pedigrees, loans.",
            "warmside.plugins.lineage.commands:app",
        ),
    ),
    settings=SETTINGS,
    findings=(
        ("lineage.overdue", "a loan that runs beyond its agreed end"),
        ("lineage.close_pair", "a pair that is related more closely than is set"),
    ),
    answers=(Answers("kinship", Unit.RATIO),),
)
