"""Entries of a case that cannot be."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from warmside.api import BadInput
from warmside.plugins.health.cases.course_of_case import Entry, closes_nothing


def refuse_impossible(code: str, entries: Sequence[Entry], new: Collection[int]) -> None:
    """BadInput where a recheck is before its entry, or an end is of a case that never began.

    `entries` are all of one animal, whose code is said; only those of the events `new` are judged.
    """
    for entry in entries:
        if entry.event in new and entry.recheck is not None and entry.recheck < entry.day:
            raise BadInput(
                f"the recheck, {entry.recheck}, is before the entry of {entry.day}; "
                "give the day on which the vet wants to see the animal again"
            )
    for entry in closes_nothing(entries):
        if entry.event in new:
            raise BadInput(
                f"{code} has no open case on {entry.day}; open one with --state open, "
                f"or look: warmside health cases {code}"
            )
