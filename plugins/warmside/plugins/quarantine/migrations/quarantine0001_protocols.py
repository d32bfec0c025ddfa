"""Protocols of the keeper's own, changed values, and figures of laboratories."""

import sqlalchemy as sa
from alembic import op

revision = "quarantine0001"
down_revision = None


def upgrade() -> None:
    """Create the three tables."""
    op.create_table(
        "quarantine_protocol",
        sa.Column("name", sa.String(40), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("name", name=op.f("pk_quarantine_protocol")),
    )
    op.create_table(
        "quarantine_edit",
        sa.Column("protocol", sa.String(40), nullable=False),
        sa.Column("key", sa.String(120), nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("protocol", "key", name=op.f("pk_quarantine_edit")),
    )
    op.create_table(
        "quarantine_laboratory",
        sa.Column("method", sa.String(40), nullable=False),
        sa.Column("sensitivity_low", sa.Double(), nullable=False),
        sa.Column("sensitivity_high", sa.Double(), nullable=False),
        sa.Column("specificity", sa.Double(), nullable=False),
        sa.CheckConstraint(
            "sensitivity_low <= sensitivity_high", name=op.f("ck_quarantine_laboratory_range")
        ),
        sa.PrimaryKeyConstraint("method", name=op.f("pk_quarantine_laboratory")),
    )
