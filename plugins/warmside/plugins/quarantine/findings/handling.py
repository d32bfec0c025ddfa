"""Residents that were handled after a quarantined animal."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from warmside.api import About, Basis, Finding, Level, Mark, Source
from warmside.plugins.quarantine.contact.handling import Handling, residents_after_quarantined

ORDER = Source("residents first, quarantined animals last", Mark.COMMON_PRACTICE)


def handling_findings(handlings: Iterable[Handling]) -> Iterator[Finding]:
    """A finding for each resident handled after a quarantined animal on one day."""
    for slip in residents_after_quarantined(handlings):
        resident, first = slip.resident, slip.after
        words = (
            f"handled at {resident.at:%H:%M} on {resident.at:%Y-%m-%d}, after {first.code} "
            f"in quarantine at {first.at:%H:%M}; wash hands, change tools, watch it"
        )
        basis = Basis("residents are cared for first", ORDER, (first.event_id, resident.event_id))
        about = About(resident.animal_id)
        yield Finding("quarantine.handled_after", Level.LOOK_SOON, words, basis, about)
