"""The keeper's address book of vets."""

from __future__ import annotations

from sqlalchemy import Column, Integer, Named, String, Table, Text, TypedColumns

from warmside.api import metadata


class VetCols(TypedColumns):
    """A practice or clinic; `emergency` is the number for nights and Sundays, empty where unknown.

    `reptiles` says whether they treat reptiles: yes, no or not known; `hours` are their opening
    hours in the keeper's words.
    """

    id: Named[int] = Column(Integer, primary_key=True)
    name: Named[str] = Column(String(80))
    telephone: Named[str] = Column(String(80))
    emergency: Named[str] = Column(String(80))
    hours: Named[str] = Column(String(120))
    reptiles: Named[str] = Column(String(20))
    address: Named[str] = Column(String(120))
    note: Named[str] = Column(Text)


vet = Table("health_vet", metadata, VetCols)
