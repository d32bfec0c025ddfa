"""The rhythms that the keeper set."""

from __future__ import annotations

from sqlalchemy import (
    CheckConstraint,
    Column,
    ForeignKey,
    Integer,
    Named,
    String,
    Table,
    TypedColumns,
    UniqueConstraint,
)

from warmside.api import metadata


class RhythmCols(TypedColumns):
    """Every `days` an event of `kind`; for one animal or enclosure, or (both null) for all.

    `extent` is spot or full, for cleaning alone; null in rows of before there was a choice.
    """

    id: Named[int] = Column(Integer, primary_key=True)
    kind: Named[str] = Column(String(80))
    days: Named[int]
    animal_id: Named[int | None] = Column(ForeignKey("animal.id", ondelete="CASCADE"))
    enclosure_id: Named[int | None] = Column(ForeignKey("enclosure.id", ondelete="CASCADE"))
    extent: Named[str | None] = Column(String(10))


rhythm = Table(
    "rhythm_interval",
    metadata,
    RhythmCols,
    CheckConstraint("days >= 1", name="days"),
    UniqueConstraint("kind", "animal_id", "enclosure_id"),
)
