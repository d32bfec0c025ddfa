"""An index of the kinds of event that few animals have, so that nobody looks at all for them."""

import sqlalchemy as sa
from alembic import op

revision = "c0010"
down_revision = "c0009"
RARE = (
    "kind NOT IN ('observed', 'defecated', 'fed', 'weighed', 'measured', 'shedding', 'shed', "
    "'cleaned', 'watered', 'misted', 'climate')"
)


def upgrade() -> None:
    """Add the index."""
    op.create_index(
        "ix_event_rare",
        "event",
        ["kind", "animal_id"],
        sqlite_where=sa.text(f"replaced_by is null and {RARE}"),
    )
