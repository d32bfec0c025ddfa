"""Units shown by quantity, changeable any day."""

revision = "c0003"
down_revision = "c0002"


def upgrade() -> None:
    """Nothing yet."""
