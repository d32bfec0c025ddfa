"""Units shown by quantity, changeable any day."""

import sqlalchemy as sa
from alembic import op

revision = "c0003"
down_revision = "c0002"


def upgrade() -> None:
    """Let `units` hold any display; what it holds already ("metric", "imperial") is one.

    SQLite drops no CHECK, so the table is rebuilt, by hand, since a batch keeps some CHECKs and
    forgets others. It has one row, no trigger and no index, and no table refers to it.
    """
    op.create_table(
        "collection_new",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(200), nullable=False),
        sa.Column("zone", sa.String(80), nullable=False),
        sa.Column("units", sa.Text(), nullable=False),
        sa.CheckConstraint("id = 1", name=op.f("ck_collection_one_row")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_collection")),
    )
    op.execute(
        "INSERT INTO collection_new (id, name, zone, units) "
        "SELECT id, name, zone, units FROM collection"
    )
    op.drop_table("collection")
    op.rename_table("collection_new", "collection")
