"""An identity of the collection, how long its copies are kept, checksums, a wall around days.

The checksums are worked out by whoever runs the revisions, for they are of the code of today.
"""

import secrets

import sqlalchemy as sa
from alembic import op

revision = "c0005"
down_revision = "c0004"

KEEPING = "14 days, 8 weeks, 24 months"


def upgrade() -> None:
    """Rebuild the row of the collection; add the columns, the table of seals and the guard."""
    _collection()
    for table in ("event", "event_shelf", "step"):
        op.add_column(table, sa.Column("sum", sa.Integer(), nullable=True))
    op.create_table(
        "seal",
        sa.Column("tbl", sa.String(80), nullable=False),
        sa.Column("sum", sa.Integer(), nullable=False),
        sa.PrimaryKeyConstraint("tbl", name=op.f("pk_seal")),
    )
    op.execute(GUARD)


def _collection() -> None:
    op.create_table(
        "collection_new",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(200), nullable=False),
        sa.Column("zone", sa.String(80), nullable=False),
        sa.Column("units", sa.Text(), nullable=False),
        sa.Column("identity", sa.String(32), nullable=False),
        sa.Column("keeping", sa.String(80), nullable=False),
        sa.CheckConstraint("id = 1", name=op.f("ck_collection_one_row")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_collection")),
    )
    op.get_bind().exec_driver_sql(
        "INSERT INTO collection_new (id, name, zone, units, identity, keeping) "
        "SELECT id, name, zone, units, ?, ? FROM collection",
        (secrets.token_hex(16), KEEPING),
    )
    op.drop_table("collection")
    op.rename_table("collection_new", "collection")


GUARD = """CREATE TRIGGER event_days_are_days BEFORE INSERT ON event
WHEN date(NEW.day, '+0 days') IS NOT NEW.day OR NEW.day < '1800-01-01' OR NEW.day > '2999-12-31'
OR (NEW.at IS NOT NULL AND strftime('%Y-%m-%dT%H:%M:%SZ', NEW.at) IS NOT NEW.at)
BEGIN SELECT RAISE(ABORT, 'the day or instant of an event is none'); END"""
