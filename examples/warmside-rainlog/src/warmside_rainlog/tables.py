"""The rain chambers that the keeper has."""

from __future__ import annotations

from sqlalchemy import CheckConstraint, Column, ForeignKey, Named, String, Table, TypedColumns

from warmside.api import metadata


class ChamberCols(TypedColumns):
    """An enclosure with rain: `minutes` of it every `days` days."""

    enclosure_id: Named[int] = Column(
        ForeignKey("enclosure.id", ondelete="CASCADE"), primary_key=True
    )
    days: Named[int]
    minutes: Named[int]
    since: Named[str] = Column(String(10))


chamber = Table(
    "rainlog_chamber",
    metadata,
    ChamberCols,
    CheckConstraint("days >= 1", name="days"),
    CheckConstraint("minutes >= 1", name="minutes"),
)
