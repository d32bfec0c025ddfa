"""The descriptions of enclosures, one a day that something changed."""

from __future__ import annotations

from datetime import date

from sqlalchemy import (
    Column,
    ForeignKey,
    Integer,
    Named,
    Table,
    Text,
    TypedColumns,
    UniqueConstraint,
)

from warmside.api import metadata


class DescriptionCols(TypedColumns):
    """How an enclosure is set up from `since` on, as the TOML that the keeper gave."""

    id: Named[int] = Column(Integer, primary_key=True)
    enclosure_id: Named[int] = Column(ForeignKey("enclosure.id", ondelete="CASCADE"))
    since: Named[date]
    text: Named[str] = Column(Text())


description = Table(
    "habitat_description",
    metadata,
    DescriptionCols,
    UniqueConstraint("enclosure_id", "since"),
)
