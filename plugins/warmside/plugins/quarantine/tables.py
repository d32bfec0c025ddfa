"""The keeper's own protocols, changed values of protocols, and figures of laboratories."""

from __future__ import annotations

from sqlalchemy import CheckConstraint, Column, Named, String, Table, Text, TypedColumns

from warmside.api import metadata


class ProtocolCols(TypedColumns):
    """A protocol that the keeper added; `text` is the TOML file that holds it."""

    name: Named[str] = Column(String(40), primary_key=True)
    text: Named[str] = Column(Text)


class EditCols(TypedColumns):
    """A value of a protocol changed for the whole collection, by dotted key, as typed."""

    protocol: Named[str] = Column(String(40), primary_key=True)
    key: Named[str] = Column(String(120), primary_key=True)
    value: Named[str] = Column(Text)


class LaboratoryCols(TypedColumns):
    """How good a method is at the keeper's laboratory; shares of 1."""

    method: Named[str] = Column(String(40), primary_key=True)
    sensitivity_low: Named[float]
    sensitivity_high: Named[float]
    specificity: Named[float]


protocol = Table("quarantine_protocol", metadata, ProtocolCols)
edit = Table("quarantine_edit", metadata, EditCols)
laboratory = Table(
    "quarantine_laboratory",
    metadata,
    LaboratoryCols,
    CheckConstraint("sensitivity_low <= sensitivity_high", name="range"),
)
