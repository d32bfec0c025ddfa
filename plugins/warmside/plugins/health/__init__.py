"""Illness on record: cases, what vets said and ordered, its doses, and when to look again."""

from warmside.api import Answers, Command, Manifest

MANIFEST = Manifest(
    name="health",
    summary="Cases of illness and courses of treatment as a vet ordered them, with their doses",
    hook_level=(2, 1),
    hooks="warmside.plugins.health.hooks",
    commands=(
        Command(
            "health",
            "Illness on record.",
            "warmside.plugins.health.commands:app",
            reads=("cases", "courses", "case"),
        ),
    ),
    findings=(
        ("health.case", "a case that is not closed"),
        ("health.unrecorded", "planned doses without a record"),
        ("health.not_taken", "the last dose was missed, refused, brought up, or only part given"),
        ("health.other_weight", "a dose ordered for a weight that has changed by a tenth"),
        (
            "health.food",
            "an animal in treatment that is not fed by its plan, or should be asked for",
        ),
        ("health.bottle", "a medicine that is past its day or will not last"),
    ),
    answers=(Answers("treatment"), Answers("feeding as told")),
)
