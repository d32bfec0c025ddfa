"""Descriptions of enclosures, with the day from which each holds."""

import sqlalchemy as sa
from alembic import op

revision = "habitat0002"
down_revision = "habitat0001"


def upgrade() -> None:
    """Create the table of descriptions."""
    op.create_table(
        "habitat_description",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("enclosure_id", sa.Integer(), nullable=False),
        sa.Column("since", sa.Date(), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["enclosure_id"],
            ["enclosure.id"],
            ondelete="CASCADE",
            name=op.f("fk_habitat_description_enclosure_id_enclosure"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_habitat_description")),
        sa.UniqueConstraint(
            "enclosure_id", "since", name=op.f("uq_habitat_description_enclosure_id_since")
        ),
    )
