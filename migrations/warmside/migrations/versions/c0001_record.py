"""The record: animals, lineage, enclosures, events, steps and plugins."""

import sqlalchemy as sa
from alembic import op

revision = "c0001"
down_revision = None


def upgrade() -> None:
    """Create the core's tables and guards."""
    _collection()
    _animals()
    _steps()
    _events()


def _collection() -> None:
    op.create_table(
        "collection",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(200), nullable=False),
        sa.Column("zone", sa.String(80), nullable=False),
        sa.Column("units", sa.String(10), nullable=False),
        sa.CheckConstraint("id = 1", name=op.f("ck_collection_one_row")),
        sa.CheckConstraint("units in ('metric', 'imperial')", name=op.f("ck_collection_units")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_collection")),
    )
    op.create_table(
        "plugin_state",
        sa.Column("name", sa.String(40), nullable=False),
        sa.Column("enabled", sa.Boolean(), nullable=False),
        sa.Column("distribution", sa.String(120), nullable=False),
        sa.Column("version", sa.String(40), nullable=False),
        sa.Column("settings", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("name", name=op.f("pk_plugin_state")),
    )


def _animals() -> None:
    op.create_table(
        "species",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("scientific", sa.String(120, collation="NOCASE"), nullable=False),
        sa.Column("common", sa.String(120), nullable=False),
        sa.Column("grp", sa.String(40), nullable=False),
        sa.Column("sex_system", sa.String(20), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_species")),
        sa.UniqueConstraint("scientific", name=op.f("uq_species_scientific")),
    )
    op.create_table(
        "animal",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("code", sa.String(20, collation="NOCASE"), nullable=False),
        sa.Column("name", sa.String(400), nullable=False),
        sa.Column("species_id", sa.Integer(), nullable=False),
        sa.Column("sex", sa.String(10), nullable=False),
        sa.Column("sex_known_by", sa.String(40), nullable=False),
        sa.Column("hatched", sa.String(10), nullable=False),
        sa.Column("origin", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.CheckConstraint("sex in ('female', 'male', 'unknown')", name=op.f("ck_animal_sex")),
        _reference("animal", "species_id", "species"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_animal")),
        sa.UniqueConstraint("code", name=op.f("uq_animal_code")),
    )
    op.create_table(
        "parentage",
        sa.Column("child_id", sa.Integer(), nullable=False),
        sa.Column("role", sa.String(4), nullable=False),
        sa.Column("parent_id", sa.Integer(), nullable=False),
        sa.Column("certainty", sa.String(20), nullable=False),
        sa.CheckConstraint("role in ('dam', 'sire')", name=op.f("ck_parentage_role")),
        sa.CheckConstraint("child_id <> parent_id", name=op.f("ck_parentage_other")),
        _reference("parentage", "child_id", "animal", "CASCADE"),
        _reference("parentage", "parent_id", "animal"),
        sa.PrimaryKeyConstraint("child_id", "role", name=op.f("pk_parentage")),
    )
    op.create_index(op.f("ix_parentage_parent_id"), "parentage", ["parent_id"])
    op.create_table(
        "enclosure",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("code", sa.String(20, collation="NOCASE"), nullable=False),
        sa.Column("name", sa.String(400), nullable=False),
        sa.Column("room", sa.String(200), nullable=False),
        sa.Column("width_mm", sa.Double(), nullable=True),
        sa.Column("depth_mm", sa.Double(), nullable=True),
        sa.Column("height_mm", sa.Double(), nullable=True),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("retired", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_enclosure")),
        sa.UniqueConstraint("code", name=op.f("uq_enclosure_code")),
    )


def _steps() -> None:
    op.create_table(
        "step",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("at", sa.String(20), nullable=False),
        sa.Column("kind", sa.String(4), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("of", sa.Integer(), nullable=True),
        sa.Column("undone_by", sa.Integer(), nullable=True),
        sa.CheckConstraint("kind in ('do', 'undo', 'redo')", name=op.f("ck_step_kind")),
        _reference("step", "of", "step"),
        _reference("step", "undone_by", "step"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_step")),
    )
    op.create_table(
        "change",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("step_id", sa.Integer(), nullable=False),
        sa.Column("tbl", sa.String(80), nullable=False),
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("before", sa.Text(), nullable=True),
        sa.Column("after", sa.Text(), nullable=True),
        _reference("change", "step_id", "step"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_change")),
    )
    op.create_index(op.f("ix_change_step_id"), "change", ["step_id"])


def _events() -> None:
    op.create_table(
        "event",
        *_event_columns(),
        sa.CheckConstraint(
            "animal_id is not null or enclosure_id is not null", name=op.f("ck_event_subject")
        ),
        _reference("event", "animal_id", "animal"),
        _reference("event", "enclosure_id", "enclosure"),
        _reference("event", "step_id", "step"),
        _reference("event", "replaced_by", "event"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_event")),
        sqlite_autoincrement=True,
    )
    op.create_index(op.f("ix_event_step_id"), "event", ["step_id"])
    op.create_index("ix_event_day", "event", ["day"])
    for name, columns, where in (
        ("ix_event_animal", ["animal_id", "kind", "day", "at"], "replaced_by is null"),
        (
            "ix_event_enclosure",
            ["enclosure_id", "kind", "day", "at"],
            "replaced_by is null and enclosure_id is not null",
        ),
        ("ix_event_replaced_by", ["replaced_by"], "replaced_by is not null"),
    ):
        op.create_index(name, "event", columns, sqlite_where=sa.text(where))
    op.create_table(
        "event_shelf",
        *_event_columns(),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_event_shelf")),
    )
    op.create_index(op.f("ix_event_shelf_step_id"), "event_shelf", ["step_id"])
    for guard in GUARDS:
        op.execute(guard)


def _event_columns() -> list[sa.Column[object]]:
    return [
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(80), nullable=False),
        sa.Column("animal_id", sa.Integer(), nullable=True),
        sa.Column("enclosure_id", sa.Integer(), nullable=True),
        sa.Column("day", sa.String(10), nullable=False),
        sa.Column("at", sa.String(20), nullable=True),
        sa.Column("zone", sa.String(80), nullable=True),
        sa.Column("data", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("step_id", sa.Integer(), nullable=False),
        sa.Column("replaced_by", sa.Integer(), nullable=True),
    ]


def _reference(
    table: str, column: str, referred: str, on_delete: str = "RESTRICT"
) -> sa.ForeignKeyConstraint:
    name = op.f(f"fk_{table}_{column}_{referred}")
    return sa.ForeignKeyConstraint([column], [f"{referred}.id"], ondelete=on_delete, name=name)


GUARDS = (
    """CREATE TRIGGER event_is_append_only BEFORE UPDATE OF
id, kind, animal_id, enclosure_id, day, at, zone, data, note, step_id ON event
BEGIN SELECT RAISE(ABORT, 'events are append-only'); END""",
    """CREATE TRIGGER event_leaves_by_the_shelf BEFORE DELETE ON event
WHEN NOT EXISTS (SELECT 1 FROM event_shelf WHERE event_shelf.id = OLD.id)
BEGIN SELECT RAISE(ABORT, 'events are append-only'); END""",
)
