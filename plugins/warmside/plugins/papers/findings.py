"""A document that is over and was not put aside."""

from __future__ import annotations

from datetime import date

from warmside.api import OWN_RECORDS, About, Basis, Finding, Level
from warmside.plugins.papers.documents.held import Document


def ended(document: Document, on: date) -> Finding | None:
    """Told from the day after its end until it is renewed or put aside."""
    if document.until is None or document.until >= on:
        return None
    words = (
        f"the {document.name} ended on {document.until}: ask the authority whether another is "
        f"needed; warmside papers change {document.id} --until DAY, or, where it is not, "
        f"warmside papers end {document.id}"
    )
    basis = Basis("a document beyond its last day", OWN_RECORDS)
    return Finding("papers.ended", Level.LOOK_SOON, words, basis, About(document.animal))
