"""Whether the day or the month comes first in days that are typed as `4/1/2021`."""

import sqlalchemy as sa
from alembic import op

revision = "c0008"
down_revision = "c0007"


def upgrade() -> None:
    """Add the column, which is empty until the keeper says it."""
    op.add_column("collection", sa.Column("dates", sa.String(20), nullable=True))
