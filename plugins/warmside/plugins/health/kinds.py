"""The kind of event that a case is made of."""

from __future__ import annotations

from warmside.api import EventKind, fields

CASE = "health.case"
OPEN, CLOSED = "open", "closed"
EXAMINED = "examined"


class CaseRecord:
    """A case of illness begins, there is news of it, or it ends; no diagnosis."""

    state: str = fields.choice((OPEN, CLOSED), "open: begins or has news; closed: is over")
    what: str = fields.words("what was seen, what the vet said, or how it ended", optional=False)
    awaited: str = fields.words("what is awaited, as a result", before="awaited:")
    recheck: str | None = fields.day(
        "the day of the recheck that the vet named", optional=True, before="recheck"
    )


KINDS = (EventKind(CASE, "case of illness", CaseRecord, absent=True),)
