"""A series as a climate logger's plugin would have, made in a file without that plugin.

The name begins with no plugin's name that ships; the readings are invented.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

from sqlalchemy import CheckConstraint, Column, ForeignKey, Integer, MetaData, Table, Text
from sqlalchemy.schema import SchemaItem

from warmside.core.file import sqlite
from warmside.core.record import sums, tables
from warmside.core.record.guards import series_guards
from warmside.core.record.series.declared import declare
from warmside.core.record.steps import driver_of

METADATA = MetaData(naming_convention=tables.metadata.naming_convention)
KEY = ("sensor_id", "at")
SENSOR = Table(
    "logger_sensor", METADATA, Column("id", Integer, primary_key=True), Column("place", Text)
)


def items() -> list[SchemaItem]:
    """What a reading is: seconds since 1970, thousandths of a degree."""
    return [
        Column("sensor_id", ForeignKey("logger_sensor.id", ondelete="RESTRICT"), type_=Integer),
        Column("at", Integer),
        Column("value", Integer, nullable=False),
        CheckConstraint("value > -273150", name="cold"),
    ]


READINGS = declare("logger_reading", *items(), key=KEY, metadata=METADATA)
REMARK = Table(  # a row about a reading
    "logger_remark",
    METADATA,
    Column("id", Integer, primary_key=True),
    Column("sensor", Integer),
    Column("instant", Integer),
    Column("words", Text),
)


def make_tables(path: Path, sensors: int = 0) -> None:
    """The tables with their guards, and so many sensors that no step made."""
    engine = sqlite.open_engine(path)
    METADATA.create_all(engine, tables=[SENSOR, READINGS.table, READINGS.shelf])
    own_version(path, "logger")
    with engine.begin() as connection:
        for statement in (*series_guards(READINGS.name, KEY), REMARKS):
            connection.exec_driver_sql(statement)
        for number in range(1, sensors + 1):
            connection.execute(SENSOR.insert().values(id=number, place="warm side"))
        driver = driver_of(connection)
        if sums.has_sums(driver):
            sums.seal(driver, sums.sealed_tables(driver))


def own_version(path: Path, owner: str) -> None:
    """A table of versions, as a plugin with own tables has in a file."""
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute(f"CREATE TABLE schema_version_{owner} (version_num TEXT NOT NULL)")
        connection.execute(f"INSERT INTO schema_version_{owner} VALUES ('{owner}0001')")


REMARKS = (
    "CREATE TABLE logger_remark (id INTEGER PRIMARY KEY, sensor INTEGER, instant INTEGER, "
    "words TEXT, FOREIGN KEY (sensor, instant) REFERENCES logger_reading ON DELETE CASCADE)"
)


def readings(number: int, sensors: int = 10) -> Iterator[tuple[int, int, int]]:
    """So many readings, one a minute of each sensor, in the order in which they were taken."""
    for n in range(number):
        yield 1 + n % sensors, 1_700_000_000 + 60 * (n // sensors), 20_000 + 7919 * n % 12_000
