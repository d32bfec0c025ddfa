"""Illness on record: cases, what vets said and ordered, doses, visits, samples, a death."""

from warmside.api import Answers, Command, Manifest, Setting, Unit

MANIFEST = Manifest(
    name="health",
    summary="Cases of illness, courses as a vet ordered them, visits, samples, the vets to call",
    hook_level=(2, 1),
    hooks="warmside.plugins.health.hooks",
    commands=(
        Command(
            "health",
            "Illness on record.",
            "warmside.plugins.health.commands:app",
            reads=("cases", "courses", "case", "awaited", "vets"),
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
    settings=(
        Setting(
            "faecal_days",
            "days between two faecal checks of one that lives here; 0 asks for none",
            365.0,
            "VCA Hospitals, leaflets on reptiles (undated): yearly, with a faecal test [secondary]",
            Unit.DAYS,
            0.0,
            3650.0,
            per=("species", "animal"),
        ),
    ),
    tables="warmside.plugins.health.tables",
    migrations="warmside.plugins.health.migrations",
    head="health0001",
    answers=(Answers("treatment"), Answers("feeding as told"), Answers("after a death")),
)
