"""Lineage: families, how related animals are, pedigrees drawn, loans, and the breeding season."""

from warmside.api import Answers, Command, Manifest, Unit
from warmside.plugins.lineage.settings import SETTINGS

MANIFEST = Manifest(
    name="lineage",
    summary="Families: kinship, pedigrees, loans, the breeding season up to its hatchlings",
    hook_level=(2, 0),
    hooks="warmside.plugins.lineage.hooks",
    commands=(
        Command(
            "lineage",
            "Lineage: families, kinship, pedigrees, loans, breeding seasons.",
            "warmside.plugins.lineage.commands:app",
            reads=(
                "show",
                "draw",
                "pair",
                "collection",
                "loan list",
                "loan show",
                "loan paper",
                "season show",
                "season list",
                "eggs list",
                "eggs show",
            ),
        ),
    ),
    settings=SETTINGS,
    findings=(
        ("lineage.overdue", "a loan that runs beyond its agreed end"),
        ("lineage.close_pair", "a pair that is related more closely than is set"),
        ("lineage.unfit", "an animal of a pair under the mass, age or rest that is set, or thin"),
        ("lineage.late", "a female that is late or long with laying or birth"),
        ("lineage.eggs_late", "eggs that are past the days in which they were to hatch"),
    ),
    answers=(Answers("kinship", Unit.RATIO),),
    values="warmside.plugins.lineage.season.figures:shipped",
)
