"""Marks of animals, documents of animals and of the keeper."""

import sqlalchemy as sa
from alembic import op

revision = "papers0001"
down_revision = None


def upgrade() -> None:
    """Create the two tables."""
    op.create_table(
        "papers_mark",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("animal_id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(20), nullable=False),
        sa.Column("number", sa.String(80), nullable=False),
        sa.Column("place", sa.String(80), nullable=False),
        sa.Column("since", sa.String(10), nullable=True),
        sa.Column("note", sa.Text(), nullable=False),
        _animal("papers_mark"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_papers_mark")),
    )
    op.create_index(op.f("ix_papers_mark_animal_id"), "papers_mark", ["animal_id"])
    op.create_table(
        "papers_document",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("animal_id", sa.Integer(), nullable=True),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("number", sa.String(80), nullable=False),
        sa.Column("authority", sa.String(120), nullable=False),
        sa.Column("issued", sa.String(10), nullable=True),
        sa.Column("until", sa.String(10), nullable=True),
        sa.Column("kept", sa.String(120), nullable=False),
        sa.Column("value", sa.String(80), nullable=False),
        sa.Column("ended", sa.String(10), nullable=True),
        sa.Column("note", sa.Text(), nullable=False),
        _animal("papers_document"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_papers_document")),
    )
    op.create_index(op.f("ix_papers_document_animal_id"), "papers_document", ["animal_id"])


def _animal(table: str) -> sa.ForeignKeyConstraint:
    name = op.f(f"fk_{table}_animal_id_animal")
    return sa.ForeignKeyConstraint(["animal_id"], ["animal.id"], ondelete="CASCADE", name=name)
