"""What happened to one animal in quarantine, as plain values from which all else is computed.

`id` is the event's id in the record, `at` its local wall time without zone (midnight where only
the day is known). Order within a moment follows the kind, then the id.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime
from enum import StrEnum

from msgspec import Struct


class Outcome(StrEnum):
    """What a laboratory said."""

    NEGATIVE = "negative"
    POSITIVE = "positive"
    UNCLEAR = "unclear"


class _Event(Struct, frozen=True):
    id: int
    at: datetime

    @property
    def day(self) -> date:
        """The local day."""
        return self.at.date()


class Started(_Event, frozen=True):
    """A quarantine begins under a protocol; while one runs, it starts again under this one.

    `cause` says why (new arrival, return from a loan); `edits` are this animal's own values by
    dotted key.
    """

    protocol: str
    cause: str = ""
    edits: tuple[tuple[str, str], ...] = ()


class Edited(_Event, frozen=True):
    """Values of the running protocol changed for this animal, for its whole quarantine."""

    edits: tuple[tuple[str, str], ...]


class Newcomer(_Event, frozen=True):
    """Another animal came to share the air; `animal` is its code."""

    animal: str


class Returned(_Event, frozen=True):
    """The animal itself came back from a loan, a show or a boarding."""

    after: str


class Restarted(_Event, frozen=True):
    """The keeper restarts the clock by hand, and says why."""

    cause: str


class Sampled(_Event, frozen=True):
    """A sample was taken for a test (`faecal`) by a method (`flotation`)."""

    test: str
    method: str = ""


class Resulted(_Event, frozen=True):
    """The result of a sample, named by the sample's event id."""

    sample: int
    outcome: Outcome


class Checked(_Event, frozen=True):
    """A check (`mites`, `weight`); `found` where something was seen that should not be there."""

    check: str
    found: bool = False
    words: str = ""


class Examined(_Event, frozen=True):
    """A vet saw the animal."""


class DiedBeside(_Event, frozen=True):
    """Another animal that shared the air died; `animal` is its code."""

    animal: str


class Died(_Event, frozen=True):
    """The animal itself died, which ends its quarantine."""


class Released(_Event, frozen=True):
    """The quarantine ends; `reason` is the keeper's for an override, `to` the new enclosure.

    `terms` are the protocol's values by which it was released, where they differ from the protocol
    as it was shipped or added: a later change of the protocol does not judge it anew.
    """

    reason: str = ""
    to: str = ""
    terms: tuple[tuple[str, str], ...] = ()


Event = (
    Started
    | Edited
    | Newcomer
    | Returned
    | Restarted
    | Sampled
    | Resulted
    | Checked
    | Examined
    | DiedBeside
    | Released
    | Died
)

_ORDER: tuple[type[_Event], ...] = (
    Started,
    Edited,
    Returned,
    Newcomer,
    Restarted,
    Sampled,
    Resulted,
    Checked,
    Examined,
    DiedBeside,
    Released,
    Died,
)


def in_order(events: Iterable[Event]) -> tuple[Event, ...]:
    """The events by time, then kind, then id, whatever the order they came in."""
    return tuple(sorted(events, key=lambda e: (e.at, _ORDER.index(type(e)), e.id)))
