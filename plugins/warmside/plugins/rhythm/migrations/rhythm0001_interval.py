"""Intervals that the keeper sets."""

import sqlalchemy as sa
from alembic import op

revision = "rhythm0001"
down_revision = None


def upgrade() -> None:
    """Create the table of intervals."""
    op.create_table(
        "rhythm_interval",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(80), nullable=False),
        sa.Column("days", sa.Integer(), nullable=False),
        sa.Column("animal_id", sa.Integer(), nullable=True),
        sa.Column("enclosure_id", sa.Integer(), nullable=True),
        sa.CheckConstraint("days >= 1", name=op.f("ck_rhythm_interval_days")),
        sa.ForeignKeyConstraint(
            ["animal_id"],
            ["animal.id"],
            ondelete="CASCADE",
            name=op.f("fk_rhythm_interval_animal_id_animal"),
        ),
        sa.ForeignKeyConstraint(
            ["enclosure_id"],
            ["enclosure.id"],
            ondelete="CASCADE",
            name=op.f("fk_rhythm_interval_enclosure_id_enclosure"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_rhythm_interval")),
        sa.UniqueConstraint(
            "kind",
            "animal_id",
            "enclosure_id",
            name=op.f("uq_rhythm_interval_kind_animal_id_enclosure_id"),
        ),
    )
