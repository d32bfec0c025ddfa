"""Values per species, enclosure and animal; and a stamp on all that a step touches."""

import sqlalchemy as sa
from alembic import op

revision = "c0002"
down_revision = "c0001"


def upgrade() -> None:
    """Create the tables of narrower values and of stamps."""
    op.create_table(
        "scoped_value",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("plugin", sa.String(40), nullable=False),
        sa.Column("name", sa.String(80), nullable=False),
        *(_scope(what) for what in ("species", "enclosure", "animal")),
        sa.Column("value", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.CheckConstraint(
            "(species_id is not null) + (enclosure_id is not null) + (animal_id is not null) = 1",
            name=op.f("ck_scoped_value_one_scope"),
        ),
        *(_reference(what) for what in ("species", "enclosure", "animal")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_scoped_value")),
        sa.UniqueConstraint(
            "plugin",
            "name",
            "species_id",
            "enclosure_id",
            "animal_id",
            name=op.f("uq_scoped_value_plugin_name_species_id_enclosure_id_animal_id"),
        ),
    )
    op.create_table(
        "touched",
        sa.Column("what", sa.String(120), nullable=False),
        sa.Column("stamp", sa.String(32), nullable=False),
        sa.PrimaryKeyConstraint("what", name=op.f("pk_touched")),
    )


def _scope(what: str) -> sa.Column[object]:
    return sa.Column(f"{what}_id", sa.Integer(), nullable=True)


def _reference(what: str) -> sa.ForeignKeyConstraint:
    name = op.f(f"fk_scoped_value_{what}_id_{what}")
    return sa.ForeignKeyConstraint([f"{what}_id"], [f"{what}.id"], ondelete="CASCADE", name=name)
