"""Rounds for which the live feeders were fed well."""

import sqlalchemy as sa
from alembic import op

revision = "feeding0003"
down_revision = "feeding0002"


def upgrade() -> None:
    """Create the table."""
    op.create_table(
        "feeding_gut_loaded",
        sa.Column("day", sa.String(10), nullable=False),
        sa.PrimaryKeyConstraint("day", name=op.f("pk_feeding_gut_loaded")),
    )
