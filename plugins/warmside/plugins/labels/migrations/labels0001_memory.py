"""Notes for labels, sheets begun, labels printed and printers measured."""

import sqlalchemy as sa
from alembic import op

revision = "labels0001"
down_revision = None


def upgrade() -> None:
    """Create the four tables."""
    _notes()
    op.create_table(
        "labels_sheet",
        sa.Column("stock", sa.String(40), nullable=False),
        sa.Column("used", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("stock", name=op.f("pk_labels_sheet")),
    )
    op.create_table(
        "labels_printed",
        sa.Column("kind", sa.String(20), nullable=False),
        sa.Column("code", sa.String(40), nullable=False),
        sa.Column("fingerprint", sa.String(40), nullable=False),
        sa.Column("day", sa.String(10), nullable=False),
        sa.PrimaryKeyConstraint("kind", "code", name=op.f("pk_labels_printed")),
    )
    op.create_table(
        "labels_profile",
        sa.Column("name", sa.String(40), nullable=False),
        *(
            sa.Column(name, sa.Double(), nullable=False)
            for name in ("offset_x_mm", "offset_y_mm", "scale_x", "scale_y", "rotation_deg")
        ),
        sa.Column("day", sa.String(10), nullable=False),
        sa.PrimaryKeyConstraint("name", name=op.f("pk_labels_profile")),
    )


def _notes() -> None:
    op.create_table(
        "labels_note",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("slot", sa.String(40), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("animal_id", sa.Integer(), nullable=True),
        sa.Column("enclosure_id", sa.Integer(), nullable=True),
        sa.CheckConstraint(
            "(animal_id IS NULL) <> (enclosure_id IS NULL)",
            name=op.f("ck_labels_note_one_subject"),
        ),
        sa.ForeignKeyConstraint(
            ["animal_id"],
            ["animal.id"],
            ondelete="CASCADE",
            name=op.f("fk_labels_note_animal_id_animal"),
        ),
        sa.ForeignKeyConstraint(
            ["enclosure_id"],
            ["enclosure.id"],
            ondelete="CASCADE",
            name=op.f("fk_labels_note_enclosure_id_enclosure"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_labels_note")),
        sa.UniqueConstraint(
            "slot",
            "animal_id",
            "enclosure_id",
            name=op.f("uq_labels_note_slot_animal_id_enclosure_id"),
        ),
    )
