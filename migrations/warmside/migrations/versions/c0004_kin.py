"""Parents with weights, clutches, and fields of events that were texts."""

revision = "c0004"
down_revision = "c0003"


def upgrade() -> None:
    """Nothing yet."""
