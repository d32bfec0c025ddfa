"""Traits that the keeper added, or says otherwise than the catalogue that ships."""

from __future__ import annotations

from sqlalchemy import CheckConstraint, Column, Named, String, Table, Text, TypedColumns

from warmside.api import metadata


class TraitCols(TypedColumns):
    """An allele of a species; texts are empty where there is nothing to say.

    `recombination` is the chance of crossing over to the place that `linked` or `follows` names.
    """

    species: Named[str] = Column(String(120, collation="NOCASE"), primary_key=True)
    name: Named[str] = Column(String(80, collation="NOCASE"), primary_key=True)
    locus: Named[str] = Column(String(80))
    shows: Named[str] = Column(String(20))
    two_copies: Named[str] = Column(String(80))
    linked: Named[str] = Column(String(10))
    follows: Named[str] = Column(String(80))
    recombination: Named[float | None]
    welfare: Named[str] = Column(Text)
    source: Named[str] = Column(Text)


trait = Table(
    "genes_trait",
    metadata,
    TraitCols,
    CheckConstraint("shows in ('recessive', 'incomplete dominant', 'dominant')", name="shows"),
    CheckConstraint("recombination between 0 and 0.5", name="recombination"),
)
