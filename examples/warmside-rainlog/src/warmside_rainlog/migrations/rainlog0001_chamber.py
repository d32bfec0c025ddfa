"""Rain chambers."""

import sqlalchemy as sa
from alembic import op

revision = "rainlog0001"
down_revision = None


def upgrade() -> None:
    """Create the table of rain chambers."""
    op.create_table(
        "rainlog_chamber",
        sa.Column("enclosure_id", sa.Integer(), nullable=False),
        sa.Column("days", sa.Integer(), nullable=False),
        sa.Column("minutes", sa.Integer(), nullable=False),
        sa.Column("since", sa.String(10), nullable=False),
        sa.CheckConstraint("days >= 1", name=op.f("ck_rainlog_chamber_days")),
        sa.CheckConstraint("minutes >= 1", name=op.f("ck_rainlog_chamber_minutes")),
        sa.ForeignKeyConstraint(
            ["enclosure_id"],
            ["enclosure.id"],
            ondelete="CASCADE",
            name=op.f("fk_rainlog_chamber_enclosure_id_enclosure"),
        ),
        sa.PrimaryKeyConstraint("enclosure_id", name=op.f("pk_rainlog_chamber")),
    )
