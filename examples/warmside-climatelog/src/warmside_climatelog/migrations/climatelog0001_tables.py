"""Sensors and the series of their readings."""

import sqlalchemy as sa
from alembic import op

from warmside.api import series

revision = "climatelog0001"
down_revision = None


def upgrade() -> None:
    """Create both tables."""
    op.create_table(
        "climatelog_sensor",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("enclosure_id", sa.Integer(), nullable=True),
        sa.Column("name", sa.String(80), nullable=False),
        sa.Column("zone", sa.String(40), nullable=False),
        sa.Column("offset_mk", sa.Integer(), nullable=False),
        sa.Column("left_mm", sa.Integer(), nullable=True),
        sa.Column("back_mm", sa.Integer(), nullable=True),
        sa.Column("since", sa.String(10), nullable=False),
        sa.Column("checked", sa.String(10), nullable=True),
        sa.Column("stopped", sa.String(10), nullable=True),
        sa.CheckConstraint("name <> ''", name=op.f("ck_climatelog_sensor_named")),
        sa.ForeignKeyConstraint(
            ["enclosure_id"],
            ["enclosure.id"],
            ondelete="SET NULL",
            name=op.f("fk_climatelog_sensor_enclosure_id_enclosure"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_climatelog_sensor")),
        sa.UniqueConstraint("name", name=op.f("uq_climatelog_sensor_name")),
    )
    series.create(
        op,
        "climatelog_reading",
        sa.Column(
            "sensor_id",
            sa.Integer(),
            sa.ForeignKey(
                "climatelog_sensor.id",
                ondelete="RESTRICT",
                name=op.f("fk_climatelog_reading_sensor_id_climatelog_sensor"),
            ),
        ),
        sa.Column("at", sa.Integer()),
        sa.Column("value", sa.Integer(), nullable=False),
        sa.CheckConstraint("value > -273150", name=op.f("ck_climatelog_reading_cold")),
        key=("sensor_id", "at"),
    )
