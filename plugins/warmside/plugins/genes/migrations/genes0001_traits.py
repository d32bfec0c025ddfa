"""Traits that the keeper added."""

import sqlalchemy as sa
from alembic import op

revision = "genes0001"
down_revision = None


def upgrade() -> None:
    """Create the table."""
    op.create_table(
        "genes_trait",
        sa.Column("species", sa.String(120, collation="NOCASE"), nullable=False),
        sa.Column("name", sa.String(80, collation="NOCASE"), nullable=False),
        sa.Column("locus", sa.String(80), nullable=False),
        sa.Column("shows", sa.String(20), nullable=False),
        sa.Column("two_copies", sa.String(80), nullable=False),
        sa.Column("linked", sa.String(10), nullable=False),
        sa.Column("follows", sa.String(80), nullable=False),
        sa.Column("recombination", sa.Double(), nullable=True),
        sa.Column("welfare", sa.Text(), nullable=False),
        sa.Column("source", sa.Text(), nullable=False),
        sa.CheckConstraint(
            "shows in ('recessive', 'incomplete dominant', 'dominant')",
            name=op.f("ck_genes_trait_shows"),
        ),
        sa.CheckConstraint(
            "recombination between 0 and 0.5", name=op.f("ck_genes_trait_recombination")
        ),
        sa.PrimaryKeyConstraint("species", "name", name=op.f("pk_genes_trait")),
    )
