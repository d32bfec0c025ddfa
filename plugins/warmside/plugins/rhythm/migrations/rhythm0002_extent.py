"""How much is cleaned: a spot clean and a full clean have rhythms of their own."""

import sqlalchemy as sa
from alembic import op

revision = "rhythm0002"
down_revision = "rhythm0001"


def upgrade() -> None:
    """Add the column; rows of before name no extent and are read as they always were."""
    op.add_column("rhythm_interval", sa.Column("extent", sa.String(10), nullable=True))
