"""A death, and who shared the air of the animal before it."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime, timedelta

from msgspec import Struct

from warmside.api import Animal
from warmside.plugins.quarantine.contact.newcomers import Stay

CONTACT_DAYS = 30  # common practice, no source: who shared its air so lately is watched
TOLD_DAYS = 30  # common practice, no source: for so long after the death


class Death(Struct, frozen=True):
    """An animal that died: its id, its code, the local wall time, and the event that says so."""

    animal_id: int
    code: str
    at: datetime
    event_id: int


class Mourned(Struct, frozen=True):
    """A death with those here that shared its air, and whether it was in quarantine itself.

    `restarted` are those of them whose clock it started again.
    """

    animal: Animal
    death: Death
    in_quarantine: bool
    contacts: tuple[Animal, ...]
    restarted: tuple[Animal, ...]


def contacts(stays: Iterable[Stay], death: Death) -> tuple[str, ...]:
    """The codes of those that were in one air with it at some time of the days before."""
    since = death.at - timedelta(days=CONTACT_DAYS)
    late = [s for s in stays if _reaches(s, since, death.at)]
    own = [s for s in late if s.animal == death.code]
    met = {s.animal for s in late for mine in own if s.air == mine.air and _together(s, mine)}
    return tuple(sorted(met - {death.code}))


def _reaches(stay: Stay, since: datetime, until: datetime) -> bool:
    return stay.since <= until and (stay.until is None or stay.until >= since)


def _together(a: Stay, b: Stay) -> bool:
    return (b.until is None or a.since <= b.until) and (a.until is None or b.since <= a.until)
