"""A record of a quarantine as it is entered, with what it is judged by."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct

from warmside.api import Animal, Event
from warmside.plugins.quarantine.clock.state import QuarantineState
from warmside.plugins.quarantine.protocol.terms import Protocol


class Release(Struct, frozen=True):
    """The quarantine as it ran up to its release, and the terms under which it ran."""

    state: QuarantineState
    terms: str


class Entered(Struct, frozen=True):
    """One event; `held` is the quarantine in which it lies.

    `sample` is that of a result, as it stands now. `release` is what a release ends; a correction
    of one has none and keeps the terms that it had.
    """

    event: Event
    animal: Animal
    held: QuarantineState | None
    protocols: Mapping[str, Protocol]
    sample: Event | None = None
    release: Release | None = None
