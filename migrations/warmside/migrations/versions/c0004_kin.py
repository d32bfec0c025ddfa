"""Parents with weights, clutches, and fields of events that were texts.

Everything here is frozen: it knows the shapes of its own time, not those of the code of today.
"""

import json
import re
from collections import defaultdict
from collections.abc import Callable
from datetime import date
from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "c0004"
down_revision = "c0003"

WEIGHT = "weight is null or (weight > 0 and weight <= 1)"
Data = dict[str, Any]
Retype = Callable[[Data, int | None], Data]  # data and the animal that the event is about


def upgrade() -> None:
    """Make the tables of clutches, let a role have several candidates, give words their types."""
    _clutches()
    _parentage()
    _parentage_changes()
    _events()


def _clutches() -> None:
    op.create_table(
        "clutch",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("code", sa.String(20, collation="NOCASE"), nullable=False),
        sa.Column("dam_id", sa.Integer(), nullable=True),
        *(sa.Column(name, sa.String(10), nullable=True) for name in DAYS),
        sa.Column("eggs", sa.Integer(), nullable=True),
        sa.Column("good", sa.Integer(), nullable=True),
        sa.Column("note", sa.Text(), nullable=False),
        *(_day(name) for name in DAYS),
        _reference("clutch", "dam_id", "animal", "RESTRICT"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_clutch")),
        sa.UniqueConstraint("code", name=op.f("uq_clutch_code")),
    )
    op.create_index(op.f("ix_clutch_dam_id"), "clutch", ["dam_id"])
    op.create_table(
        "clutch_sire",
        sa.Column("clutch_id", sa.Integer(), nullable=False),
        sa.Column("sire_id", sa.Integer(), nullable=False),
        sa.Column("certainty", sa.String(20), nullable=False),
        sa.Column("weight", sa.Double(), nullable=True),
        sa.CheckConstraint(WEIGHT, name=op.f("ck_clutch_sire_weight")),
        _reference("clutch_sire", "clutch_id", "clutch", "CASCADE"),
        _reference("clutch_sire", "sire_id", "animal", "RESTRICT"),
        sa.PrimaryKeyConstraint("clutch_id", "sire_id", name=op.f("pk_clutch_sire")),
    )
    op.create_index(op.f("ix_clutch_sire_sire_id"), "clutch_sire", ["sire_id"])
    op.create_table(
        "clutch_young",
        sa.Column("young_id", sa.Integer(), nullable=False),
        sa.Column("clutch_id", sa.Integer(), nullable=False),
        _reference("clutch_young", "young_id", "animal", "CASCADE"),
        _reference("clutch_young", "clutch_id", "clutch", "RESTRICT"),
        sa.PrimaryKeyConstraint("young_id", name=op.f("pk_clutch_young")),
    )
    op.create_index(op.f("ix_clutch_young_clutch_id"), "clutch_young", ["clutch_id"])


DAYS = ("laid", "hatched_first", "hatched_last")


def _day(column: str) -> sa.CheckConstraint:
    said = f"{column} is null or date({column}, '+0 days') = {column}"
    return sa.CheckConstraint(said, name=op.f(f"ck_clutch_{column}"))


def _reference(table: str, column: str, referred: str, on_delete: str) -> sa.ForeignKeyConstraint:
    name = op.f(f"fk_{table}_{column}_{referred}")
    return sa.ForeignKeyConstraint([column], [f"{referred}.id"], ondelete=on_delete, name=name)


def _parentage() -> None:
    """Rebuild the table, for SQLite changes no primary key; no other table refers to it."""
    op.create_table(
        "parentage_new",
        sa.Column("child_id", sa.Integer(), nullable=False),
        sa.Column("role", sa.String(4), nullable=False),
        sa.Column("parent_id", sa.Integer(), nullable=False),
        sa.Column("certainty", sa.String(20), nullable=False),
        sa.Column("weight", sa.Double(), nullable=True),
        sa.CheckConstraint("role in ('dam', 'sire')", name=op.f("ck_parentage_role")),
        sa.CheckConstraint("child_id <> parent_id", name=op.f("ck_parentage_other")),
        sa.CheckConstraint(WEIGHT, name=op.f("ck_parentage_weight")),
        _reference("parentage", "child_id", "animal", "CASCADE"),
        _reference("parentage", "parent_id", "animal", "RESTRICT"),
        sa.PrimaryKeyConstraint("child_id", "role", "parent_id", name=op.f("pk_parentage")),
    )
    op.execute(
        "INSERT INTO parentage_new (child_id, role, parent_id, certainty) "
        "SELECT child_id, role, parent_id, certainty FROM parentage"
    )
    op.drop_table("parentage")
    op.rename_table("parentage_new", "parentage")
    op.create_index(op.f("ix_parentage_parent_id"), "parentage", ["parent_id"])


def _parentage_changes() -> None:
    """Give the images of steps the new key, so that undo of an old step finds the row it means.

    A step that put one parent in the place of another removed one row and added one.
    """
    rows = op.get_bind().exec_driver_sql(
        "SELECT id, step_id, key, before, after FROM change WHERE tbl = 'parentage' ORDER BY id"
    )
    for id, step, key, *texts in rows.fetchall():
        before, after = (None if t is None else json.loads(t) for t in texts)
        if before and after and before["parent_id"] != after["parent_id"]:
            _rewrite(id, key, before, None)
            op.get_bind().exec_driver_sql(
                "INSERT INTO change (step_id, tbl, key, after) VALUES (?, 'parentage', ?, ?)",
                (step, _key(key, after), json.dumps(after | {"weight": None})),
            )
        else:
            _rewrite(id, key, before, after)


def _rewrite(id: int, key: str, before: Data | None, after: Data | None) -> None:
    row = before or after
    assert row is not None
    texts = [None if r is None else json.dumps(r | {"weight": None}) for r in (before, after)]
    op.get_bind().exec_driver_sql(
        "UPDATE change SET key = ?, before = ?, after = ? WHERE id = ?",
        (_key(key, row), *texts, id),
    )


def _key(old: str, row: Data) -> str:
    return json.dumps(json.loads(old) | {"parent_id": row["parent_id"]})


def _events() -> None:
    """Rewrite the events whose kinds changed, corrected and shelved ones too.

    The guards of append-only events are taken off for that and put on again as they were.
    """
    bind = op.get_bind()
    guards = bind.exec_driver_sql(
        "SELECT name, sql FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = 'event'"
    ).fetchall()
    for name, _ in guards:
        bind.exec_driver_sql(f'DROP TRIGGER "{name}"')
    retyped = _retypers()
    for table in ("event", "event_shelf"):
        for id, kind, animal, text in _of_changed_kinds(table, retyped):
            data = _text(retyped[kind](json.loads(text), animal))
            bind.exec_driver_sql(f"UPDATE {table} SET data = ? WHERE id = ?", (data, id))
    _event_images(retyped)
    for _, sql in guards:
        bind.exec_driver_sql(sql)


def _of_changed_kinds(
    table: str, retyped: dict[str, Retype]
) -> list[tuple[int, str, int | None, str]]:
    marks = ", ".join("?" * len(retyped))
    rows = op.get_bind().exec_driver_sql(
        f"SELECT id, kind, animal_id, data FROM {table} WHERE kind IN ({marks})", tuple(retyped)
    )
    return [tuple(row) for row in rows]


def _event_images(retyped: dict[str, Retype]) -> None:
    rows = op.get_bind().exec_driver_sql("SELECT id, before, after FROM change WHERE tbl = 'event'")
    for id, *texts in rows.fetchall():
        images = [None if t is None else json.loads(t) for t in texts]
        for image in images:
            if image and image["kind"] in retyped:
                data = retyped[image["kind"]](json.loads(image["data"]), image["animal_id"])
                image["data"] = _text(data)
        now = [None if i is None else json.dumps(i) for i in images]
        if now != texts:
            op.get_bind().exec_driver_sql(
                "UPDATE change SET before = ?, after = ? WHERE id = ?", (*now, id)
            )


def _text(data: Data) -> str:
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"))


def _retypers() -> dict[str, Retype]:
    """What each kind's old data become."""
    known = _animals_by_word()

    def mated(data: Data, animal: int | None) -> Data:
        word = str(data.pop("partner", ""))
        meant = known.get(word.strip().casefold(), set()) - {animal}
        partner = next(iter(meant)) if len(meant) == 1 else None
        words = "" if partner else word
        return {**data, "partner_animal_id": partner, "partner_words": words}

    def lent(data: Data, _: int | None) -> Data:
        word = str(data.pop("until", ""))
        day = word if _is_day(word) else None
        return {**data, "until": day, "until_words": "" if day else word}

    def of_a_clutch(data: Data, _: int | None) -> Data:
        return {**data, "clutch_id": None}

    return {"mated": mated, "lent": lent, "laid": of_a_clutch, "hatched": of_a_clutch}


def _animals_by_word() -> dict[str, set[int]]:
    """The animals that each code or name may mean."""
    found: dict[str, set[int]] = defaultdict(set)
    for id, *words in op.get_bind().exec_driver_sql("SELECT id, code, name FROM animal"):
        for word in words:
            found[word.casefold()].add(id)
    return found


def _is_day(word: str) -> bool:
    if not re.fullmatch("[0-9]{4}-[0-9]{2}-[0-9]{2}", word):
        return False
    try:
        return 1800 <= date.fromisoformat(word).year <= 2999
    except ValueError:
        return False
