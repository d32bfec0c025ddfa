"""What happened to one animal in quarantine, as plain values from which all else is computed.

`id` is the event's id in the record, `at` its local wall time without zone (midnight where only
the day is known). Order within a moment follows the kind, then the id.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum


class Outcome(StrEnum):
    """What a laboratory said."""

    NEGATIVE = "negative"
    POSITIVE = "positive"
    UNCLEAR = "unclear"


@dataclass(frozen=True, slots=True)
class _Event:
    id: int
    at: datetime

    @property
    def day(self) -> date:
        """The local day."""
        return self.at.date()


@dataclass(frozen=True, slots=True)
class Started(_Event):
    """A quarantine begins under a protocol; while one runs, it starts again under this one.

    `cause` says why (new arrival, return from a loan); `edits` are this animal's own values by
    dotted key.
    """

    protocol: str
    cause: str = ""
    edits: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Edited(_Event):
    """Values of the running protocol changed for this animal, for its whole quarantine."""

    edits: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Newcomer(_Event):
    """Another animal came to share the air; `animal` is its code."""

    animal: str


@dataclass(frozen=True, slots=True)
class Returned(_Event):
    """The animal itself came back from a loan, a show or a boarding."""

    after: str


@dataclass(frozen=True, slots=True)
class Restarted(_Event):
    """The keeper restarts the clock by hand, and says why."""

    cause: str


@dataclass(frozen=True, slots=True)
class Sampled(_Event):
    """A sample was taken for a test (`faecal`) by a method (`flotation`)."""

    test: str
    method: str = ""


@dataclass(frozen=True, slots=True)
class Resulted(_Event):
    """The result of a sample, named by the sample's event id."""

    sample: int
    outcome: Outcome


@dataclass(frozen=True, slots=True)
class Checked(_Event):
    """A check (`mites`, `weight`); `found` where something was seen that should not be there."""

    check: str
    found: bool = False
    words: str = ""


@dataclass(frozen=True, slots=True)
class Released(_Event):
    """The quarantine ends; `reason` is the keeper's for an override, `to` the new enclosure.

    `terms` are the protocol's values by which it was released, where they differ from the protocol
    as it was shipped or added: a later change of the protocol does not judge it anew.
    """

    reason: str = ""
    to: str = ""
    terms: tuple[tuple[str, str], ...] = ()


Event = Started | Edited | Newcomer | Returned | Restarted | Sampled | Resulted | Checked | Released

_ORDER: tuple[type[_Event], ...] = (
    Started,
    Edited,
    Returned,
    Newcomer,
    Restarted,
    Sampled,
    Resulted,
    Checked,
    Released,
)


def in_order(events: Iterable[Event]) -> tuple[Event, ...]:
    """The events by time, then kind, then id, whatever the order they came in."""
    return tuple(sorted(events, key=lambda e: (e.at, _ORDER.index(type(e)), e.id)))
