"""The core's tables: SQLAlchemy Core with typed columns, not the ORM (40 ms a command less).

One MetaData for everything; a plugin's tables are named `<plugin>_...`. Stored units are SI, days
are ISO dates, instants are UTC text. What SQLite needs beyond tables (triggers, partial indexes)
stands in the migrations and is compared with `guards.py`.
"""

from __future__ import annotations

from sqlalchemy import (
    CheckConstraint,
    Column,
    ForeignKey,
    Index,
    Integer,
    MetaData,
    Named,
    String,
    Table,
    Text,
    TypedColumns,
    UniqueConstraint,
    text,
)

from warmside.core.record.event_queries import RARE

metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
        "pk": "pk_%(table_name)s",
    }
)
"""SQLAlchemy's register of tables, of the core and of plugins: declare yours on it."""
WEIGHT = "weight is null or (weight > 0 and weight <= 1)"


def is_day(column: str) -> str:
    """A CHECK that a column holds an ISO day or nothing."""
    return f"{column} is null or date({column}, '+0 days') = {column}"  # else 02-30 would pass


class CollectionCols(TypedColumns):
    """The one row about the collection itself; `units` is the text of a Display.

    Copies of the same collection have the same identity; `keeping` says how long they are kept,
    `dates` whether the day or the month comes first in `4/1/2021`, once that is known.
    """

    id: Named[int] = Column(Integer, primary_key=True)
    name: Named[str] = Column(String(200))
    zone: Named[str] = Column(String(80))
    units: Named[str] = Column(Text)
    identity: Named[str] = Column(String(32))
    keeping: Named[str] = Column(String(80))
    dates: Named[str | None] = Column(String(20))


class SpeciesCols(TypedColumns):
    """A species; the group decides defaults where a plugin has no row for the species."""

    id: Named[int] = Column(Integer, primary_key=True)
    scientific: Named[str] = Column(String(120, collation="NOCASE"))
    common: Named[str] = Column(String(120))
    group: Named[str] = Column("grp", String(40))
    sex_system: Named[str] = Column(String(20))


class AnimalCols(TypedColumns):
    """An animal, kept here or only an ancestor."""

    id: Named[int] = Column(Integer, primary_key=True)
    code: Named[str] = Column(String(20, collation="NOCASE"))
    name: Named[str] = Column(String(400))
    species_id: Named[int] = Column(ForeignKey("species.id", ondelete="RESTRICT"))
    sex: Named[str] = Column(String(10))
    sex_known_by: Named[str] = Column(String(40))
    hatched: Named[str] = Column(String(10))
    origin: Named[str] = Column(Text)
    note: Named[str] = Column(Text)


class ParentageCols(TypedColumns):
    """A candidate for dam or sire, how sure that is, and its share of probability."""

    child_id: Named[int] = Column(ForeignKey("animal.id", ondelete="CASCADE"), primary_key=True)
    role: Named[str] = Column(String(4), primary_key=True)
    parent_id: Named[int] = Column(
        ForeignKey("animal.id", ondelete="RESTRICT"), primary_key=True, index=True
    )
    certainty: Named[str] = Column(String(20))
    weight: Named[float | None]


class ClutchCols(TypedColumns):
    """A clutch; days are ISO text."""

    id: Named[int] = Column(Integer, primary_key=True)
    code: Named[str] = Column(String(20, collation="NOCASE"))
    dam_id: Named[int | None] = Column(ForeignKey("animal.id", ondelete="RESTRICT"), index=True)
    laid: Named[str | None] = Column(String(10))
    hatched_first: Named[str | None] = Column(String(10))
    hatched_last: Named[str | None] = Column(String(10))
    eggs: Named[int | None]
    good: Named[int | None]
    note: Named[str] = Column(Text)


class ClutchSireCols(TypedColumns):
    """A candidate for the sire of a clutch."""

    clutch_id: Named[int] = Column(ForeignKey("clutch.id", ondelete="CASCADE"), primary_key=True)
    sire_id: Named[int] = Column(
        ForeignKey("animal.id", ondelete="RESTRICT"), primary_key=True, index=True
    )
    certainty: Named[str] = Column(String(20))
    weight: Named[float | None]


class ClutchYoungCols(TypedColumns):
    """The clutch of an animal; a table of its own, since a clutch refers to animals already."""

    young_id: Named[int] = Column(ForeignKey("animal.id", ondelete="CASCADE"), primary_key=True)
    clutch_id: Named[int] = Column(ForeignKey("clutch.id", ondelete="RESTRICT"), index=True)


class EnclosureCols(TypedColumns):
    """An enclosure; inner sizes in millimetres."""

    id: Named[int] = Column(Integer, primary_key=True)
    code: Named[str] = Column(String(20, collation="NOCASE"))
    name: Named[str] = Column(String(400))
    room: Named[str] = Column(String(200))
    width_mm: Named[float | None]
    depth_mm: Named[float | None]
    height_mm: Named[float | None]
    note: Named[str] = Column(Text)
    retired: Named[bool]


class StepCols(TypedColumns):
    """One command that wrote; undo and redo are steps too.

    `by` names who did it, where that is known; `ref` is what its sender calls it (see `Sender`).
    """

    id: Named[int] = Column(Integer, primary_key=True)
    at: Named[str] = Column(String(20))
    kind: Named[str] = Column(String(4))
    words: Named[str] = Column(Text)
    of: Named[int | None] = Column(ForeignKey("step.id", ondelete="RESTRICT"))
    undone_by: Named[int | None] = Column(ForeignKey("step.id", ondelete="RESTRICT"))
    sum: Named[int | None]
    by: Named[str | None] = Column(String(80))
    ref: Named[str | None] = Column(String(80))


class ChangeCols(TypedColumns):
    """One row that a step wrote, as it was before and after (JSON; null where there was none)."""

    id: Named[int] = Column(Integer, primary_key=True)
    step_id: Named[int] = Column(ForeignKey("step.id", ondelete="RESTRICT"), index=True)
    table: Named[str] = Column("tbl", String(80))
    key: Named[str] = Column(Text)
    before: Named[str | None] = Column(Text)
    after: Named[str | None] = Column(Text)


class EventCols(TypedColumns):
    """An event; `at` is null where only the day is known, `data` is JSON of the kind's record."""

    id: Named[int] = Column(Integer, primary_key=True)
    kind: Named[str] = Column(String(80))
    animal_id: Named[int | None] = Column(ForeignKey("animal.id", ondelete="RESTRICT"))
    enclosure_id: Named[int | None] = Column(ForeignKey("enclosure.id", ondelete="RESTRICT"))
    day: Named[str] = Column(String(10))
    at: Named[str | None] = Column(String(20))
    zone: Named[str | None] = Column(String(80))
    data: Named[str] = Column(Text)
    note: Named[str] = Column(Text)
    step_id: Named[int] = Column(ForeignKey("step.id", ondelete="RESTRICT"), index=True)
    replaced_by: Named[int | None] = Column(ForeignKey("event.id", ondelete="RESTRICT"))
    sum: Named[int | None]


class ShelfCols(TypedColumns):
    """An event of a step that is undone, kept for redo; the columns are those of `event`."""

    id: Named[int] = Column(Integer, primary_key=True)
    kind: Named[str] = Column(String(80))
    animal_id: Named[int | None]
    enclosure_id: Named[int | None]
    day: Named[str] = Column(String(10))
    at: Named[str | None] = Column(String(20))
    zone: Named[str | None] = Column(String(80))
    data: Named[str] = Column(Text)
    note: Named[str] = Column(Text)
    step_id: Named[int] = Column(Integer, index=True)
    replaced_by: Named[int | None]
    sum: Named[int | None]


class PluginStateCols(TypedColumns):
    """A plugin that this file has enabled, now or once, and its settings (JSON)."""

    name: Named[str] = Column(String(40), primary_key=True)
    enabled: Named[bool]
    distribution: Named[str] = Column(String(120))
    version: Named[str] = Column(String(40))
    settings: Named[str] = Column(Text)


class ScopedValueCols(TypedColumns):
    """A setting (JSON) for one species, enclosure or animal alone; `note` is the keeper's."""

    id: Named[int] = Column(Integer, primary_key=True)
    plugin: Named[str] = Column(String(40))
    name: Named[str] = Column(String(80))
    species_id: Named[int | None] = Column(ForeignKey("species.id", ondelete="CASCADE"))
    enclosure_id: Named[int | None] = Column(ForeignKey("enclosure.id", ondelete="CASCADE"))
    animal_id: Named[int | None] = Column(ForeignKey("animal.id", ondelete="CASCADE"))
    value: Named[str] = Column(Text)
    note: Named[str] = Column(Text)


class PutOffCols(TypedColumns):
    """A finding that the keeper does not want to see before the day `until`, unless it worsens."""

    id: Named[int] = Column(Integer, primary_key=True)
    code: Named[str] = Column(String(80))
    level: Named[str] = Column(String(20))
    animal_id: Named[int | None] = Column(ForeignKey("animal.id", ondelete="CASCADE"))
    enclosure_id: Named[int | None] = Column(ForeignKey("enclosure.id", ondelete="CASCADE"))
    until: Named[str] = Column(String(10))
    reason: Named[str] = Column(Text)


class PictureCols(TypedColumns):
    """A picture or paper of the keeper's: what it shows, and the file that it is kept in.

    The file lies beside the collection and is named by its `digest` and `kind`; `given` is the
    digest of what was taken in, so that the same is known again. `thing` and `thing_id` name a row
    of a plugin's table, `health.paper` for `health_paper`.
    """

    id: Named[int] = Column(Integer, primary_key=True)
    digest: Named[str] = Column(String(64))
    kind: Named[str] = Column(String(10))
    given: Named[str] = Column(String(64))
    size_bytes: Named[int]
    width: Named[int | None]
    height: Named[int | None]
    day: Named[str] = Column(String(10))
    view: Named[str] = Column(String(80))
    note: Named[str] = Column(Text)
    animal_id: Named[int | None] = Column(ForeignKey("animal.id", ondelete="CASCADE"))
    enclosure_id: Named[int | None] = Column(ForeignKey("enclosure.id", ondelete="CASCADE"))
    event_id: Named[int | None] = Column(  # which a step may bring along
        ForeignKey("event.id", ondelete="CASCADE", deferrable=True, initially="DEFERRED")
    )
    thing: Named[str] = Column(String(80))
    thing_id: Named[int | None]


class SealCols(TypedColumns):
    """The checksum of a table as the last step left it; see `sums`."""

    table: Named[str] = Column("tbl", String(80), primary_key=True)
    sum: Named[int]


class TouchedCols(TypedColumns):
    """What a step touched last, with a token of that step: a table, or events (see `stamps`)."""

    what: Named[str] = Column(String(120), primary_key=True)
    stamp: Named[str] = Column(String(32))


collection = Table(
    "collection",
    metadata,
    CollectionCols,
    CheckConstraint("id = 1", name="one_row"),
)
species = Table("species", metadata, SpeciesCols, UniqueConstraint("scientific"))
animal = Table(
    "animal",
    metadata,
    AnimalCols,
    UniqueConstraint("code"),
    CheckConstraint("sex in ('female', 'male', 'unknown')", name="sex"),
)
parentage = Table(
    "parentage",
    metadata,
    ParentageCols,
    CheckConstraint("role in ('dam', 'sire')", name="role"),
    CheckConstraint("child_id <> parent_id", name="other"),
    CheckConstraint(WEIGHT, name="weight"),
)
clutch = Table(
    "clutch",
    metadata,
    ClutchCols,
    UniqueConstraint("code"),
    CheckConstraint(is_day("laid"), name="laid"),
    CheckConstraint(is_day("hatched_first"), name="hatched_first"),
    CheckConstraint(is_day("hatched_last"), name="hatched_last"),
)
clutch_sire = Table("clutch_sire", metadata, ClutchSireCols, CheckConstraint(WEIGHT, name="weight"))
clutch_young = Table("clutch_young", metadata, ClutchYoungCols)
enclosure = Table("enclosure", metadata, EnclosureCols, UniqueConstraint("code"))
step = Table(
    "step",
    metadata,
    StepCols,
    CheckConstraint("kind in ('do', 'undo', 'redo')", name="kind"),
    Index("ix_step_ref", "ref", unique=True),
)
change = Table("change", metadata, ChangeCols)
event = Table(
    "event",
    metadata,
    EventCols,
    CheckConstraint("animal_id is not null or enclosure_id is not null", name="subject"),
    Index(
        "ix_event_animal",
        "animal_id",
        "kind",
        "day",
        "at",
        sqlite_where=text("replaced_by is null"),
    ),
    Index(
        "ix_event_enclosure",
        "enclosure_id",
        "kind",
        "day",
        "at",
        sqlite_where=text("replaced_by is null and enclosure_id is not null"),
    ),
    Index(
        "ix_event_rare",
        "kind",
        "animal_id",
        sqlite_where=text(f"replaced_by is null and {RARE}"),
    ),
    Index("ix_event_day", "day"),
    Index(
        "ix_event_replaced_by",
        "replaced_by",
        sqlite_where=text("replaced_by is not null"),
    ),
    sqlite_autoincrement=True,
)
event_shelf = Table("event_shelf", metadata, ShelfCols)
plugin_state = Table("plugin_state", metadata, PluginStateCols)
scoped_value = Table(
    "scoped_value",
    metadata,
    ScopedValueCols,
    UniqueConstraint("plugin", "name", "species_id", "enclosure_id", "animal_id"),
    CheckConstraint(
        "(species_id is not null) + (enclosure_id is not null) + (animal_id is not null) = 1",
        name="one_scope",
    ),
)
put_off = Table(
    "put_off",
    metadata,
    PutOffCols,
    CheckConstraint(is_day("until"), name="until_is_day"),
    CheckConstraint("level in ('act now', 'look soon', 'note')", name="level"),
)
picture = Table(
    "picture",
    metadata,
    PictureCols,
    CheckConstraint(is_day("day"), name="day"),
    CheckConstraint("kind in ('jpg', 'png', 'pdf')", name="kind"),
    CheckConstraint("(thing = '') = (thing_id is null)", name="thing"),
    CheckConstraint(
        "animal_id is not null or enclosure_id is not null or thing <> ''", name="subject"
    ),
)
touched = Table("touched", metadata, TouchedCols)
seal = Table("seal", metadata, SealCols)
