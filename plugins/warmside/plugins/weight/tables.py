"""Growth references that the keeper imported or built, and which animal is held to which."""

from __future__ import annotations

from sqlalchemy import (
    CheckConstraint,
    Column,
    ForeignKey,
    Integer,
    Named,
    String,
    Table,
    Text,
    TypedColumns,
    UniqueConstraint,
)

from warmside.api import metadata


class ReferenceCols(TypedColumns):
    """A reference of one species; `species` is the scientific name, `made_from` what it rests on.

    `source`, `mark` and `licence` are kept as they were given.
    """

    id: Named[int] = Column(Integer, primary_key=True)
    name: Named[str] = Column(String(80, collation="NOCASE"))
    species: Named[str] = Column(String(120, collation="NOCASE"))
    source: Named[str] = Column(Text)
    mark: Named[str] = Column(String(40))
    licence: Named[str] = Column(Text)
    made_from: Named[str] = Column(Text)


class CurveCols(TypedColumns):
    """The curve of a sex and line; `points` is a JSON list of [age in days, L, M in g, S].

    `ranges` is a JSON object, centile to [low, high] in g at each age, where they were fitted.
    """

    reference_id: Named[int] = Column(Integer, primary_key=True, autoincrement=False)
    sex: Named[str] = Column(String(10), primary_key=True)
    line: Named[str] = Column(String(80), primary_key=True)
    points: Named[str] = Column(Text)
    ranges: Named[str] = Column(Text)


class AssignedCols(TypedColumns):
    """The reference and line that an animal is held to; no reference means none at all."""

    animal_id: Named[int] = Column(
        ForeignKey("animal.id", ondelete="CASCADE"), primary_key=True, autoincrement=False
    )
    reference_id: Named[int | None] = Column(Integer)
    line: Named[str] = Column(String(80))


reference = Table("weight_reference", metadata, ReferenceCols, UniqueConstraint("name"))
curve = Table(
    "weight_curve",
    metadata,
    CurveCols,
    CheckConstraint("sex in ('female', 'male', 'any')", name="sex"),
)
assigned = Table("weight_assigned", metadata, AssignedCols)
