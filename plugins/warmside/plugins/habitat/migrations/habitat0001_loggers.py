"""Loggers, their probes, and the series of readings."""

import sqlalchemy as sa
from alembic import op

from warmside.api import series

revision = "habitat0001"
down_revision = None


def upgrade() -> None:
    """Create the three tables."""
    _logger()
    _probe()
    series.create(
        op,
        "habitat_reading",
        sa.Column(
            "probe_id",
            sa.Integer(),
            sa.ForeignKey(
                "habitat_probe.id",
                ondelete="RESTRICT",
                name=op.f("fk_habitat_reading_probe_id_habitat_probe"),
            ),
        ),
        sa.Column("at", sa.Integer()),
        sa.Column("value", sa.Integer(), nullable=False),
        sa.CheckConstraint("value > -273150", name=op.f("ck_habitat_reading_cold")),
        key=("probe_id", "at"),
    )


def _logger() -> None:
    op.create_table(
        "habitat_logger",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("enclosure_id", sa.Integer(), nullable=True),
        sa.Column("name", sa.String(80), nullable=False),
        sa.Column("time_column", sa.String(120), nullable=False),
        sa.Column("date_order", sa.String(3), nullable=False),
        sa.Column("clock", sa.String(8), nullable=False),
        sa.Column("every_days", sa.Integer(), nullable=False),
        sa.Column("since", sa.String(10), nullable=False),
        sa.Column("stopped", sa.String(10), nullable=True),
        sa.Column("read_on", sa.String(10), nullable=True),
        sa.CheckConstraint(
            "date_order IN ('ymd', 'dmy', 'mdy')", name=op.f("ck_habitat_logger_date_order")
        ),
        sa.CheckConstraint(
            "clock IN ('wall', 'standard', 'utc')", name=op.f("ck_habitat_logger_clock")
        ),
        sa.CheckConstraint("every_days >= 1", name=op.f("ck_habitat_logger_every_days")),
        sa.ForeignKeyConstraint(
            ["enclosure_id"],
            ["enclosure.id"],
            ondelete="SET NULL",
            name=op.f("fk_habitat_logger_enclosure_id_enclosure"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_habitat_logger")),
        sa.UniqueConstraint("name", name=op.f("uq_habitat_logger_name")),
    )


def _probe() -> None:
    op.create_table(
        "habitat_probe",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("logger_id", sa.Integer(), nullable=False),
        sa.Column("column_name", sa.String(120), nullable=False),
        sa.Column("zone", sa.String(40), nullable=False),
        sa.Column("measure", sa.String(8), nullable=False),
        sa.Column("fahrenheit", sa.Boolean(), nullable=False),
        sa.Column("offset", sa.Integer(), nullable=False),
        sa.Column("checked", sa.String(10), nullable=True),
        sa.CheckConstraint(
            "measure IN ('air', 'surface', 'humidity', 'uv')",
            name=op.f("ck_habitat_probe_measure"),
        ),
        sa.CheckConstraint("zone <> ''", name=op.f("ck_habitat_probe_zone")),
        sa.ForeignKeyConstraint(
            ["logger_id"],
            ["habitat_logger.id"],
            ondelete="RESTRICT",
            name=op.f("fk_habitat_probe_logger_id_habitat_logger"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_habitat_probe")),
    )
