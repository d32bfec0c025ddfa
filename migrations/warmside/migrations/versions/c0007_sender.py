"""Who did a step, and the reference under which it was sent, so that none is written twice."""

import sqlalchemy as sa
from alembic import op

revision = "c0007"
down_revision = "c0006"


def upgrade() -> None:
    """Add the two columns, and the index that keeps a reference single."""
    op.add_column("step", sa.Column("by", sa.String(80), nullable=True))
    op.add_column("step", sa.Column("ref", sa.String(80), nullable=True))
    op.create_index("ix_step_ref", "step", ["ref"], unique=True)
