"""Vaccinations that vets gave; whether a species has one is theirs to say."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from msgspec import Struct


class Vaccination(Struct, frozen=True):
    """One that was given; `again` is the day that the vet named for the next, None where none."""

    event: int
    day: date
    what: str
    by: str = ""
    batch: str = ""
    again: date | None = None


def again(given: Iterable[Vaccination]) -> list[Vaccination]:
    """Those that are to be given again: of each vaccine the last, where the vet named a day."""
    newest: dict[str, Vaccination] = {}
    for one in sorted(given, key=lambda v: (v.day, v.event)):
        newest[" ".join(one.what.casefold().split())] = one
    return [one for one in newest.values() if one.again is not None]
