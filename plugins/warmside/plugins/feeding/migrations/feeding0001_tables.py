"""Stock, packs, single animals' feeding, thawed rounds."""

import sqlalchemy as sa
from alembic import op

revision = "feeding0001"
down_revision = None


def upgrade() -> None:
    """Create the tables."""
    _stock()
    op.create_table(
        "feeding_pack",
        sa.Column("prey", sa.String(40), nullable=False),
        sa.Column("size", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("price", sa.Double(), nullable=True),
        sa.CheckConstraint("size >= 1", name=op.f("ck_feeding_pack_size")),
        sa.PrimaryKeyConstraint("prey", "size", name=op.f("pk_feeding_pack")),
    )
    op.create_table(
        "feeding_own",
        sa.Column("animal_id", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("interval_low", sa.Double(), nullable=True),
        sa.Column("interval_high", sa.Double(), nullable=True),
        sa.Column("percent_low", sa.Double(), nullable=True),
        sa.Column("percent_high", sa.Double(), nullable=True),
        sa.Column("prey", sa.Text(), nullable=False),
        sa.Column("warm_hours", sa.Double(), nullable=True),
        sa.ForeignKeyConstraint(
            ["animal_id"],
            ["animal.id"],
            ondelete="CASCADE",
            name=op.f("fk_feeding_own_animal_id_animal"),
        ),
        sa.PrimaryKeyConstraint("animal_id", name=op.f("pk_feeding_own")),
    )
    op.create_table(
        "feeding_thawed",
        sa.Column("day", sa.String(10), nullable=False),
        sa.PrimaryKeyConstraint("day", name=op.f("pk_feeding_thawed")),
    )


def _stock() -> None:
    op.create_table(
        "feeding_lot",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("prey", sa.String(40), nullable=False),
        sa.Column("count", sa.Integer(), nullable=False),
        sa.Column("since", sa.String(10), nullable=False),
        sa.Column("frozen", sa.String(10), nullable=False),
        sa.Column("each_g", sa.Double(), nullable=True),
        sa.Column("price", sa.Double(), nullable=True),
        sa.CheckConstraint("count >= 0", name=op.f("ck_feeding_lot_count")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_feeding_lot")),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "feeding_thrown",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("lot", sa.Integer(), nullable=False),
        sa.Column("day", sa.String(10), nullable=False),
        sa.Column("count", sa.Integer(), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.CheckConstraint("count >= 1", name=op.f("ck_feeding_thrown_count")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_feeding_thrown")),
    )
    op.create_index(op.f("ix_feeding_thrown_lot"), "feeding_thrown", ["lot"])
    op.create_table(
        "feeding_settled",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("day", sa.String(10), nullable=False),
        sa.Column("newest", sa.Integer(), nullable=False),
        sa.Column("left", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_feeding_settled")),
    )
