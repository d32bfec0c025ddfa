"""The marks of animals, and the documents of animals and of the keeper."""

from __future__ import annotations

from sqlalchemy import Column, ForeignKey, Integer, Named, String, Table, Text, TypedColumns

from warmside.api import metadata


class MarkCols(TypedColumns):
    """A mark or number by which an animal is known; `place` is where on its body it is."""

    id: Named[int] = Column(Integer, primary_key=True)
    animal_id: Named[int] = Column(ForeignKey("animal.id", ondelete="CASCADE"), index=True)
    kind: Named[str] = Column(String(20))
    number: Named[str] = Column(String(80))
    place: Named[str] = Column(String(80))
    since: Named[str | None] = Column(String(10))
    note: Named[str] = Column(Text)


class DocumentCols(TypedColumns):
    """A document of an animal, or (animal null) of the keeper.

    `until` is the last day on which it holds, null where it has no end; `ended` the day from which
    it is no longer needed or was given back; `value` what was paid, in the keeper's words.
    """

    id: Named[int] = Column(Integer, primary_key=True)
    animal_id: Named[int | None] = Column(ForeignKey("animal.id", ondelete="CASCADE"), index=True)
    kind: Named[str] = Column(String(40))
    number: Named[str] = Column(String(80))
    authority: Named[str] = Column(String(120))
    issued: Named[str | None] = Column(String(10))
    until: Named[str | None] = Column(String(10))
    kept: Named[str] = Column(String(120))
    value: Named[str] = Column(String(80))
    ended: Named[str | None] = Column(String(10))
    note: Named[str] = Column(Text)


mark = Table("papers_mark", metadata, MarkCols)
document = Table("papers_document", metadata, DocumentCols)
