"""A table of findings that the keeper has put off until a day, with the reason."""

import sqlalchemy as sa
from alembic import op

revision = "c0006"
down_revision = "c0005"


def upgrade() -> None:
    """Add the table."""
    op.create_table(
        "put_off",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("code", sa.String(80), nullable=False),
        sa.Column("level", sa.String(20), nullable=False),
        sa.Column("animal_id", sa.Integer(), nullable=True),
        sa.Column("enclosure_id", sa.Integer(), nullable=True),
        sa.Column("until", sa.String(10), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.CheckConstraint(
            "until is null or date(until, '+0 days') = until", name=op.f("ck_put_off_until_is_day")
        ),
        sa.CheckConstraint(
            "level in ('act now', 'look soon', 'note')", name=op.f("ck_put_off_level")
        ),
        sa.ForeignKeyConstraint(
            ["animal_id"],
            ["animal.id"],
            name=op.f("fk_put_off_animal_id_animal"),
            ondelete="CASCADE",
        ),
        sa.ForeignKeyConstraint(
            ["enclosure_id"],
            ["enclosure.id"],
            name=op.f("fk_put_off_enclosure_id_enclosure"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_put_off")),
    )
