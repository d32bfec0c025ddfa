"""Who holds an animal and which enclosure it is in, computed from its events.

Custody and placement are not stored twice: a corrected or undone event changes both.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from enum import StrEnum

from msgspec import Struct

from warmside.core.record.entities import Event

HERE_KINDS = ("kept", "arrived", "returned")
GONE_KINDS = ("departed", "lent", "died")
PLACING_KINDS = (*HERE_KINDS, "moved")
WHEREABOUTS_KINDS = (*PLACING_KINDS, *GONE_KINDS)


class Custody(StrEnum):
    """Who holds the animal."""

    NEVER_HERE = "never here"
    HERE = "here"
    ON_LOAN_HERE = "on loan here"
    LENT_OUT = "lent out"
    DEPARTED = "departed"
    DEAD = "dead"

    @property
    def is_here(self) -> bool:
        """Whether the animal is in the keeper's care."""
        return self in (Custody.HERE, Custody.ON_LOAN_HERE)

    @property
    def is_gone(self) -> bool:
        """Whether the animal died or went for good."""
        return self in (Custody.DEAD, Custody.DEPARTED)


class Whereabouts(Struct, frozen=True):
    """Custody and enclosure from `since` on, with the counterpart and terms of a loan or sale."""

    custody: Custody
    enclosure_id: int | None
    since: date
    counterpart: str = ""
    terms: str = ""
    events: tuple[int, ...] = ()


NEVER = Whereabouts(Custody.NEVER_HERE, None, date.min)


class Held(dict[int, Whereabouts]):
    """The whereabouts of the animals that ever came, by id; of any other: never here."""

    def __missing__(self, animal_id: int) -> Whereabouts:
        return NEVER


def history(events: Iterable[Event]) -> list[Whereabouts]:
    """The whereabouts of one animal, oldest first, one entry for each event that changed them."""
    stretches: list[Whereabouts] = []
    now = NEVER
    for event in sorted(events, key=lambda e: e.order):
        if event.kind in WHEREABOUTS_KINDS:
            now = after(now, event)
            stretches.append(now)
    return stretches


def latest(events: Iterable[Event]) -> Whereabouts:
    """The whereabouts after the last of the events of one animal."""
    stretches = history(events)
    return stretches[-1] if stretches else NEVER


def after(before: Whereabouts, event: Event) -> Whereabouts:
    """The whereabouts once the event has happened."""
    data = event.data
    if event.kind == "moved":
        custody = before.custody if before.custody.is_here else Custody.HERE
        return Whereabouts(
            custody, event.enclosure_id, event.day, before.counterpart, before.terms, (event.id,)
        )
    custody, counterpart = {
        "kept": (Custody.HERE, data.get("source", "")),
        "arrived": (
            Custody.ON_LOAN_HERE if data.get("how") == "on loan here" else Custody.HERE,
            data.get("source", ""),
        ),
        "returned": (
            before.custody if before.custody is Custody.ON_LOAN_HERE else Custody.HERE,
            data.get("source", ""),
        ),
        "departed": (Custody.DEPARTED, data.get("to", "")),
        "lent": (Custody.LENT_OUT, data.get("to", "")),
        "died": (Custody.DEAD, ""),
    }[event.kind]
    placed = event.enclosure_id if event.kind in PLACING_KINDS else None
    return Whereabouts(custody, placed, event.day, counterpart, data.get("terms", ""), (event.id,))
