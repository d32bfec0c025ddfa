"""Residents that were handled after a quarantined animal."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from warmside.api import About, Basis, Finding, Level, Mark, Source
from warmside.plugins.quarantine.contact.handling import Handling, residents_after_quarantined

ORDER = Source("residents first, quarantined animals last", Mark.COMMON_PRACTICE)

NOTED = timedelta(days=1)  # common practice, no source


def handling_findings(handlings: Iterable[Handling], on: date) -> Iterator[Finding]:
    """A finding for each resident handled after a quarantined animal on one day.

    A note on that day and the next; where something was found on the one in quarantine, it is to
    be looked at soon, as long as the handlings are told.
    """
    for slip in residents_after_quarantined(handlings):
        resident, first = slip.resident, slip.after
        if not first.suspect and on - resident.at.date() > NOTED:
            continue
        level = Level.LOOK_SOON if first.suspect else Level.NOTE
        words = (
            f"handled at {resident.at:%H:%M} on {resident.at:%Y-%m-%d}, after {first.code} "
            f"in quarantine at {first.at:%H:%M}; wash hands, change tools, watch it"
        )
        basis = Basis(
            "hands and tools carry things across", ORDER, (first.event_id, resident.event_id)
        )
        about = About(resident.animal_id)
        yield Finding("quarantine.handled_after", level, words, basis, about)
