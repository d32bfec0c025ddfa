"""What was found by events that were just recorded, told at once, not only in the next round."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from warmside.core.asking.ask import Ask
from warmside.core.plugins.hook_values import Finding, Level
from warmside.core.record.entities import Event
from warmside.core.values.about import About

MOST_SUBJECTS = 12
"""Of more animals and enclosures at once the round tells."""


def found_at_once(ask: Ask, events: Sequence[Event]) -> list[Finding]:
    """What is to be looked at or acted upon today and rests on one of the events."""
    subjects = dict.fromkeys(_subjects(events))
    if len(subjects) > MOST_SUBJECTS:
        return []
    new = {event.id for event in events}
    found = (f for about in subjects for f in ask.findings(ask.book.today, about))
    loud = (f for f in found if f.level is not Level.NOTE and new.intersection(f.basis.events))
    return list(dict.fromkeys(loud))


def _subjects(events: Iterable[Event]) -> Iterator[About]:
    for event in events:
        if event.animal_id is not None:
            yield About(event.animal_id)
        if event.enclosure_id is not None:
            yield About(enclosure_id=event.enclosure_id)
