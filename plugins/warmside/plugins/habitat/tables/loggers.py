"""Loggers, their probes, and the series of what these measured."""

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
)

from warmside.api import metadata, series


class LoggerCols(TypedColumns):
    """A logger in an enclosure and how its files are written; in use until `stopped`.

    `read_on` is the day on which a file of it was read last.
    """

    id: Named[int] = Column(Integer, primary_key=True)
    enclosure_id: Named[int | None] = Column(ForeignKey("enclosure.id", ondelete="SET NULL"))
    name: Named[str] = Column(String(80), unique=True)
    time_column: Named[str] = Column(String(120))
    date_order: Named[str] = Column(String(3))
    clock: Named[str] = Column(String(8))
    every_days: Named[int]
    since: Named[str] = Column(String(10))
    stopped: Named[str | None] = Column(String(10))
    read_on: Named[str | None] = Column(String(10))


class ProbeCols(TypedColumns):
    """A column of a logger; `offset` thousandths of the stored unit are added to its readings."""

    id: Named[int] = Column(Integer, primary_key=True)
    logger_id: Named[int] = Column(ForeignKey("habitat_logger.id", ondelete="RESTRICT"))
    column_name: Named[str] = Column(String(120))
    zone: Named[str] = Column(String(40))
    measure: Named[str] = Column(String(8))
    fahrenheit: Named[bool]
    offset: Named[int]
    checked: Named[str | None] = Column(String(10))


logger = Table(
    "habitat_logger",
    metadata,
    LoggerCols,
    CheckConstraint("date_order IN ('ymd', 'dmy', 'mdy')", name="date_order"),
    CheckConstraint("clock IN ('wall', 'standard', 'utc')", name="clock"),
    CheckConstraint("every_days >= 1", name="every_days"),
)
probe = Table(
    "habitat_probe",
    metadata,
    ProbeCols,
    CheckConstraint("measure IN ('air', 'surface', 'humidity', 'uv')", name="measure"),
    CheckConstraint("zone <> ''", name="zone"),
)
readings = series.declare(
    "habitat_reading",
    Column("probe_id", ForeignKey("habitat_probe.id", ondelete="RESTRICT"), type_=Integer),
    Column("at", Integer),  # seconds since 1970, UTC
    Column("value", Integer, nullable=False),  # thousandths of the stored unit, as measured
    CheckConstraint("value > -273150", name="cold"),
    key=("probe_id", "at"),
)
