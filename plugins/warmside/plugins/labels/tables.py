"""What the plugin remembers: notes for labels, sheets begun, labels printed, printers measured."""

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


class NoteCols(TypedColumns):
    """The keeper's words for one slot of the labels of an animal or an enclosure."""

    id: Named[int] = Column(Integer, primary_key=True)
    slot: Named[str] = Column(String(40))
    text: Named[str] = Column(Text)
    animal_id: Named[int | None] = Column(ForeignKey("animal.id", ondelete="CASCADE"))
    enclosure_id: Named[int | None] = Column(ForeignKey("enclosure.id", ondelete="CASCADE"))


class SheetCols(TypedColumns):
    """The places used on the sheet of a stock that was printed last, as `1-7,12`."""

    stock: Named[str] = Column(String(40), primary_key=True)
    used: Named[str] = Column(Text)


class PrintedCols(TypedColumns):
    """What the label of a kind and code said when it was last printed, as a fingerprint.

    No foreign key: printing a label must not stand in the way of undoing an entry.
    """

    kind: Named[str] = Column(String(20), primary_key=True)
    code: Named[str] = Column(String(40), primary_key=True)
    fingerprint: Named[str] = Column(String(40))
    day: Named[str] = Column(String(10))


class ProfileCols(TypedColumns):
    """The correction for one printer; lengths in millimetres, the angle in degrees."""

    name: Named[str] = Column(String(40), primary_key=True)
    offset_x_mm: Named[float]
    offset_y_mm: Named[float]
    scale_x: Named[float]
    scale_y: Named[float]
    rotation_deg: Named[float]
    day: Named[str] = Column(String(10))


note = Table(
    "labels_note",
    metadata,
    NoteCols,
    CheckConstraint("(animal_id IS NULL) <> (enclosure_id IS NULL)", name="one_subject"),
    UniqueConstraint("slot", "animal_id", "enclosure_id"),
)
sheet = Table("labels_sheet", metadata, SheetCols)
printed = Table("labels_printed", metadata, PrintedCols)
profile = Table("labels_profile", metadata, ProfileCols)
