"""Diets that the keeper gave animals and species, and the keeper's own words for food."""

import sqlalchemy as sa
from alembic import op

revision = "feeding0002"
down_revision = "feeding0001"


def upgrade() -> None:
    """Create both tables."""
    op.create_table(
        "feeding_part",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("animal_id", sa.Integer(), nullable=True),
        sa.Column("species_id", sa.Integer(), nullable=True),
        sa.Column("diet", sa.String(40), nullable=False),
        sa.Column("part", sa.String(40), nullable=False),
        sa.Column("foods", sa.Text(), nullable=False),
        sa.Column("days_low", sa.Double(), nullable=True),
        sa.Column("days_high", sa.Double(), nullable=True),
        sa.Column("percent_low", sa.Double(), nullable=True),
        sa.Column("percent_high", sa.Double(), nullable=True),
        sa.CheckConstraint(
            "(animal_id IS NULL) <> (species_id IS NULL)", name=op.f("ck_feeding_part_of")
        ),
        sa.ForeignKeyConstraint(
            ["animal_id"],
            ["animal.id"],
            ondelete="CASCADE",
            name=op.f("fk_feeding_part_animal_id_animal"),
        ),
        sa.ForeignKeyConstraint(
            ["species_id"],
            ["species.id"],
            ondelete="CASCADE",
            name=op.f("fk_feeding_part_species_id_species"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_feeding_part")),
    )
    op.create_index(op.f("ix_feeding_part_animal_id"), "feeding_part", ["animal_id"])
    op.create_index(op.f("ix_feeding_part_species_id"), "feeding_part", ["species_id"])
    op.create_table(
        "feeding_word",
        sa.Column("word", sa.String(80), nullable=False),
        sa.Column("prey", sa.String(40), nullable=False),
        sa.PrimaryKeyConstraint("word", name=op.f("pk_feeding_word")),
    )
