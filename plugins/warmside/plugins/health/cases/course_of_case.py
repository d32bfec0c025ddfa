"""Entries of one animal as cases: each from its first entry to the one that closes it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from msgspec import Struct


class Entry(Struct, frozen=True):
    """One event of a case; `awaited` is empty and `recheck` None where none is named."""

    event: int
    day: date
    closes: bool
    what: str
    awaited: str = ""
    recheck: date | None = None


class Case(Struct, frozen=True):
    """The entries of one case, the oldest first; never empty."""

    entries: tuple[Entry, ...]

    @property
    def begun(self) -> date:
        """The day of its first entry."""
        return self.entries[0].day

    @property
    def is_open(self) -> bool:
        """Whether nothing has closed it."""
        return not self.entries[-1].closes

    @property
    def awaited(self) -> str:
        """What is awaited by the newest entry; an entry that awaits nothing settles it."""
        return self.entries[-1].awaited


def cases(entries: Sequence[Entry]) -> list[Case]:
    """The cases of entries in their order; one that closes where none is open belongs to none."""
    found: list[Case] = []
    running: list[Entry] = []
    for entry in entries:
        if entry.closes and not running:
            continue
        running.append(entry)
        if entry.closes:
            found.append(Case(tuple(running)))
            running = []
    return [*found, Case(tuple(running))] if running else found


def closes_nothing(entries: Sequence[Entry]) -> list[Entry]:
    """The entries that close a case though none was open."""
    inside = {e.event for case in cases(entries) for e in case.entries}
    return [e for e in entries if e.event not in inside]


def recheck(case: Case, seen_by_vet: Sequence[date]) -> Entry | None:
    """The newest entry that names a recheck, until a vet saw the animal on a later day.

    A visit before the day that was named counts: an appointment may be moved forward. One on the
    day of the entry is the visit at which the recheck was named.
    """
    if not case.is_open:
        return None
    named = next((e for e in reversed(case.entries) if e.recheck is not None), None)
    if named is None or any(day > named.day for day in seen_by_vet):
        return None
    return named
