"""A table of pictures and papers, whose files lie beside the collection."""

import sqlalchemy as sa
from alembic import op

revision = "c0009"
down_revision = "c0008"


def upgrade() -> None:
    """Add the table."""
    op.create_table(
        "picture",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("digest", sa.String(64), nullable=False),
        sa.Column("kind", sa.String(10), nullable=False),
        sa.Column("given", sa.String(64), nullable=False),
        sa.Column("size_bytes", sa.Integer(), nullable=False),
        sa.Column("width", sa.Integer(), nullable=True),
        sa.Column("height", sa.Integer(), nullable=True),
        sa.Column("day", sa.String(10), nullable=False),
        sa.Column("view", sa.String(80), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("animal_id", sa.Integer(), nullable=True),
        sa.Column("enclosure_id", sa.Integer(), nullable=True),
        sa.Column("event_id", sa.Integer(), nullable=True),
        sa.Column("thing", sa.String(80), nullable=False),
        sa.Column("thing_id", sa.Integer(), nullable=True),
        sa.CheckConstraint(
            "day is null or date(day, '+0 days') = day", name=op.f("ck_picture_day")
        ),
        sa.CheckConstraint("kind in ('jpg', 'png', 'pdf')", name=op.f("ck_picture_kind")),
        sa.CheckConstraint("(thing = '') = (thing_id is null)", name=op.f("ck_picture_thing")),
        sa.CheckConstraint(
            "animal_id is not null or enclosure_id is not null or thing <> ''",
            name=op.f("ck_picture_subject"),
        ),
        *(_reference(table) for table in ("animal", "enclosure")),
        sa.ForeignKeyConstraint(
            ["event_id"],
            ["event.id"],
            name=op.f("fk_picture_event_id_event"),
            ondelete="CASCADE",
            deferrable=True,
            initially="DEFERRED",
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_picture")),
    )


def _reference(table: str) -> sa.ForeignKeyConstraint:
    return sa.ForeignKeyConstraint(
        [f"{table}_id"],
        [f"{table}.id"],
        name=op.f(f"fk_picture_{table}_id_{table}"),
        ondelete="CASCADE",
    )
