"""A quarantine protocol: how long, which tests and checks, what restarts it, what ends it."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum

from msgspec import Struct

from warmside.api import NotFound, Source, near_miss, quoted
from warmside.plugins.quarantine.protocol.mites import Rechecks

FLOOR_DAYS = 30  # AZA quarantine standards: 30 days minimum, under a veterinarian


class Cause(StrEnum):
    """What restarts the clock; the last three are never switched off."""

    NEWCOMER = "newcomer_in_room"
    POSITIVE = "positive_test"
    MITES = "mite_sighted"
    RETURN = "return"
    STARTED_AGAIN = "started_again"
    KEEPER = "keeper"
    DEATH = "death_beside"


SWITCHED = (Cause.NEWCOMER, Cause.POSITIVE, Cause.MITES, Cause.RETURN)


class TestWanted(Struct, frozen=True):
    """A test that the protocol knows: accepted methods, negatives wanted, days between samples.

    No methods means any method; `negatives` 0 means that the test is not asked for.
    """

    __test__ = False  # not a test for pytest

    name: str
    title: str
    methods: tuple[str, ...]
    negatives: int
    spacing_days: int

    def accepts(self, method: str) -> bool:
        """Whether a sample tested by that method counts; one without a stated method does."""
        return not self.methods or method in self.methods or method == ""


class CheckWanted(Struct, frozen=True):
    """A look at the animal that comes back every few days."""

    name: str
    title: str
    every_days: int


class Protocol(Struct, frozen=True):
    """A protocol with the source of every value, by dotted key (`tests.faecal.negatives`)."""

    name: str
    title: str
    group: str
    tools: str
    warning: str
    days: int
    result_wait_days: int
    tests: tuple[TestWanted, ...]
    checks: tuple[CheckWanted, ...]
    restarts: frozenset[Cause]
    checks_up_to_date: bool
    rechecks: Rechecks
    sources: Mapping[str, Source]

    def test(self, name: str) -> TestWanted | None:
        """The test of that name, if the protocol knows it."""
        return next((t for t in self.tests if t.name == name), None)

    def title_of(self, test: str) -> str:
        """What the test of that name is called; its name where the protocol has none."""
        found = self.test(test)
        return found.title if found else test

    def restarts_on(self, cause: Cause) -> bool:
        """Whether that cause restarts the clock under this protocol."""
        return cause not in SWITCHED or cause in self.restarts


def cautions(protocol: Protocol) -> tuple[str, ...]:
    """What to say wherever the protocol is chosen or shown: its own warning, and too few days."""
    said = [protocol.warning] if protocol.warning else []
    if protocol.days < FLOOR_DAYS:
        said.append(
            f"{protocol.days} days is below the floor of {FLOOR_DAYS} days that zoos keep; "
            "ask a reptile vet before relying on it"
        )
    return tuple(said)


def named_protocol(known: Mapping[str, Protocol], name: str) -> Protocol:
    """The protocol of that name; raises NotFound with a near miss."""
    if name not in known:
        raise NotFound(
            f"there is no protocol {quoted(name)}{near_miss(name, known)}; "
            "list them with: warmside quarantine protocols"
        )
    return known[name]
