"""The sensors, and the series of their readings."""

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


class SensorCols(TypedColumns):
    """A probe in an enclosure; `offset_mk` thousandths of a degree are added to its readings.

    `left_mm` and `back_mm` say where it hangs, seen from above. It is in use until `stopped`.
    """

    id: Named[int] = Column(Integer, primary_key=True)
    enclosure_id: Named[int | None] = Column(ForeignKey("enclosure.id", ondelete="SET NULL"))
    name: Named[str] = Column(String(80), unique=True)
    zone: Named[str] = Column(String(40))
    offset_mk: Named[int]
    left_mm: Named[int | None]
    back_mm: Named[int | None]
    since: Named[str] = Column(String(10))
    checked: Named[str | None] = Column(String(10))
    stopped: Named[str | None] = Column(String(10))


sensor = Table(
    "climatelog_sensor",
    metadata,
    SensorCols,
    CheckConstraint("name <> ''", name="named"),
)

readings = series.declare(
    "climatelog_reading",
    Column("sensor_id", ForeignKey("climatelog_sensor.id", ondelete="RESTRICT"), type_=Integer),
    Column("at", Integer),  # seconds since 1970, UTC
    Column("value", Integer, nullable=False),  # thousandths of a degree Celsius, as measured
    CheckConstraint("value > -273150", name="cold"),
    key=("sensor_id", "at"),
)
