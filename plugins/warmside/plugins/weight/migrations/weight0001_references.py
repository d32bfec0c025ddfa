"""References, their curves, and which animal is held to which."""

import sqlalchemy as sa
from alembic import op

revision = "weight0001"
down_revision = None


def upgrade() -> None:
    """Create the three tables."""
    op.create_table(
        "weight_reference",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(80, collation="NOCASE"), nullable=False),
        sa.Column("species", sa.String(120, collation="NOCASE"), nullable=False),
        sa.Column("source", sa.Text(), nullable=False),
        sa.Column("mark", sa.String(40), nullable=False),
        sa.Column("licence", sa.Text(), nullable=False),
        sa.Column("made_from", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_weight_reference")),
        sa.UniqueConstraint("name", name=op.f("uq_weight_reference_name")),
    )
    op.create_table(
        "weight_curve",
        sa.Column("reference_id", sa.Integer(), nullable=False),
        sa.Column("sex", sa.String(10), nullable=False),
        sa.Column("line", sa.String(80), nullable=False),
        sa.Column("points", sa.Text(), nullable=False),
        sa.Column("ranges", sa.Text(), nullable=False),
        sa.CheckConstraint("sex in ('female', 'male', 'any')", name=op.f("ck_weight_curve_sex")),
        sa.PrimaryKeyConstraint("reference_id", "sex", "line", name=op.f("pk_weight_curve")),
    )
    op.create_table(
        "weight_assigned",
        sa.Column("animal_id", sa.Integer(), nullable=False),
        sa.Column("reference_id", sa.Integer(), nullable=True),
        sa.Column("line", sa.String(80), nullable=False),
        sa.ForeignKeyConstraint(
            ["animal_id"],
            ["animal.id"],
            ondelete="CASCADE",
            name=op.f("fk_weight_assigned_animal_id_animal"),
        ),
        sa.PrimaryKeyConstraint("animal_id", name=op.f("pk_weight_assigned")),
    )
