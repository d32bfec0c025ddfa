"""The kind of event by which a keeper says what an animal carries."""

from __future__ import annotations

from warmside.api import EventKind, fields

KNOWN = "genes.known"
EVIDENCE = ("seen", "stated", "tested", "proven")
"""How it is known: by looks, by a seller's word, by a laboratory, by young that showed it."""


class KnownRecord:
    """One trait of an animal, and how it is known."""

    says: str = fields.words('in words of the trade: "66 % het piebald"', optional=False)
    evidence: str = fields.choice(EVIDENCE, "how it is known")


KINDS = (EventKind(KNOWN, "genes", KnownRecord, absent=True),)
