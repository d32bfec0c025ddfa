"""The address book of vets."""

import sqlalchemy as sa
from alembic import op

revision = "health0001"
down_revision = None


def upgrade() -> None:
    """Create the table."""
    op.create_table(
        "health_vet",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(80), nullable=False),
        sa.Column("telephone", sa.String(80), nullable=False),
        sa.Column("emergency", sa.String(80), nullable=False),
        sa.Column("hours", sa.String(120), nullable=False),
        sa.Column("reptiles", sa.String(20), nullable=False),
        sa.Column("address", sa.String(120), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_health_vet")),
    )
