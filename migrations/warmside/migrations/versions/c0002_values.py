"""Values per species, enclosure and animal; who did a step; what was touched."""

revision = "c0002"
down_revision = "c0001"


def upgrade() -> None:
    """Nothing yet."""
