"""Papers: marks of animals, documents and until when they hold, where an animal is from."""

from warmside.api import Command, Manifest, Setting, Unit

MANIFEST = Manifest(
    name="papers",
    summary="Transponders and other marks, documents with their end, provenance, lists",
    hook_level=(2, 1),
    hooks="warmside.plugins.papers.hooks",
    commands=(
        Command(
            "papers",
            "Marks, documents, and lists of them.",
            "warmside.plugins.papers.commands:app",
            reads=("list", "inventory"),
        ),
    ),
    settings=(
        Setting(
            "notice_days",
            "so many days before a document ends the round asks to see to it",
            60.0,
            "usual time that offices take [common practice, no source]",
            Unit.DAYS,
            0.0,
            730.0,
        ),
    ),
    findings=(("papers.ended", "a document that no longer holds"),),
    tables="warmside.plugins.papers.tables",
    migrations="warmside.plugins.papers.migrations",
    head="papers0001",
)
