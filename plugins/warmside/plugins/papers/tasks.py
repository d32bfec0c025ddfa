"""What documents ask for before they end."""

from __future__ import annotations

from datetime import date, timedelta

from warmside.api import OWN_RECORDS, About, Basis, Task
from warmside.plugins.papers.documents.held import Document, notice_from

YEAR = timedelta(days=365)


def see_to(document: Document, notice_days: float, on: date) -> Task | None:
    """To renew a document or to ask about it, until it ends; nothing before or after."""
    first = notice_from(document, notice_days)
    if first is None or document.until is None or not first <= on <= document.until:
        return None
    by = f", by {document.authority}" if document.authority else ""
    return Task(
        f"see to the {document.name} before it ends",
        first,
        Basis(f"{document.name}{by}, holds until {document.until}", OWN_RECORDS),
        About(document.animal),
        data={"document": document.id},
        command=f"warmside papers change {document.id} --until DAY",
        note="whether it is needed further the law says: ask the authority",
        key=f"document {document.id}",
        by=document.until,
        asks=("until when it holds now", (document.until + YEAR).isoformat()),
        keepers=True,
    )
