"""Quarantine: from arrival to release under a protocol, computed from the record."""

from warmside.api import Command, Manifest, Setting

MANIFEST = Manifest(
    name="quarantine",
    summary="A protocol for newcomers: the clock, tests, checks, and what release waits for",
    hook_level=(2, 1),
    hooks="warmside.plugins.quarantine.hooks",
    commands=(
        Command(
            "quarantine",
            "Quarantine: begin, follow, test, release.",
            "warmside.plugins.quarantine.commands:app",
            reads=("show", "odds", "risk", "figures", "protocols", "protocol show"),
        ),
    ),
    settings=(
        Setting(
            "protocol",
            "protocol of a quarantine that begins without a named one",
            "general",
            "the shipped general protocol (common practice, no source)",
            per=("species", "animal"),
        ),
        Setting(
            "days",
            "minimum days of the general protocol",
            90,
            "separate room for at least 90 days: summary in Clinician's Brief 2008 of a "
            "veterinary review (secondary)",
            least=1,
            most=1095,
        ),
    ),
    findings=(
        ("quarantine.positive", "a positive result, and no vet visit on record since"),
        ("quarantine.death", "a death in quarantine, or beside an animal in quarantine"),
        ("quarantine.shared_enclosure", "in quarantine, in one enclosure with residents"),
        ("quarantine.shared_room", "in quarantine, in one room with residents"),
        ("quarantine.room_unknown", "in quarantine, in an enclosure whose room is not on record"),
        ("quarantine.handled_after", "a resident was handled after a quarantined animal"),
        ("quarantine.newcomer", "an animal came and no quarantine began"),
        ("quarantine.result_awaited", "a test is without result for too long"),
        ("quarantine.restarted", "a newcomer in the room started the clock again"),
        ("quarantine.late_positive", "a positive result after the release, and no vet visit since"),
        ("quarantine.longer_advised", "a boa or python under a shorter protocol"),
        ("quarantine.not_computed", "a quarantine that cannot be computed from its records"),
    ),
    tables="warmside.plugins.quarantine.tables",
    migrations="warmside.plugins.quarantine.migrations",
    head="quarantine0001",
)
