"""Weighings about to be recorded that look mistyped or like another animal's."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date

from warmside.api import Book, Event
from warmside.plugins.weight.course.series import Weighings, weighings
from warmside.plugins.weight.course.weights import Rows
from warmside.plugins.weight.reading.rows import rows_of
from warmside.plugins.weight.slips.at_entry import Known, OtherAnimal, entry_suspicions
from warmside.plugins.weight.slips.in_history import history_suspicions
from warmside.plugins.weight.slips.suspicion import Suspicion


def doubtful(book: Book, events: Iterable[Event]) -> Iterator[tuple[Event, Suspicion]]:
    """The weighings among the events that are in doubt; `book` holds them already.

    A single new weighing, the last of its animal, is judged by those before it; others by their
    neighbours on both sides.
    """
    new: dict[int, dict[int, Event]] = defaultdict(dict)
    for event in events:
        if event.kind == "weighed" and event.animal_id is not None:
            new[event.animal_id][event.id] = event
    if not new:
        return
    rows = rows_of(book, new, ("weighed", "laid", "fed"), None, date.max)
    for animal_id, mine in new.items():
        those = weighings(sorted(rows[animal_id].weighed))
        if len(mine) == 1 and those.events[-1] in mine:
            found: Sequence[Suspicion] = entry_suspicions(
                those.masses_g[-1],
                those.days[-1],
                those[:-1],
                _others(book, animal_id, new, rows),
                Known(rows[animal_id].laid, rows[animal_id].meals),
            )
            yield from ((mine[those.events[-1]], doubt) for doubt in found)
        else:
            yield from _in_history(those, mine, rows[animal_id].laid)


def _in_history(
    those: Weighings, mine: Mapping[int, Event], laid: Sequence[float]
) -> Iterator[tuple[Event, Suspicion]]:
    for doubt in history_suspicions(those, laid):
        for event in doubt.events:
            if event in mine:
                yield mine[event], doubt


def _others(
    book: Book, animal_id: int, new: Mapping[int, Mapping[int, Event]], rows: Mapping[int, Rows]
) -> Iterator[OtherAnimal]:
    """The other animals here with their last mass before these events; read once asked for."""
    last = book.latest("weighed")["weighed"]
    for other in book.animals_here():
        mass = last[other].data["mass_g"] if other in last else None
        if other in new:
            before = weighings(r for r in sorted(rows[other].weighed) if r[0] not in new[other])
            mass = before.masses_g[-1] if len(before) else None
        if mass is not None and other != animal_id:
            yield OtherAnimal(book.animals[other].code, mass)
