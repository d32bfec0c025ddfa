"""The place of quarantined enclosures in the round: last, a group at a time."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from warmside.api import CareRank
from warmside.plugins.quarantine.clock.state import QuarantineState

LAST = 900


def care_ranks(places: Mapping[int, list[QuarantineState]]) -> Iterator[CareRank]:
    """Ranks from the states of the animals in each enclosure.

    Groups come in the order of their longest protocol, so that the long one is the very last. An
    enclosure of two groups is done with the later one.
    """
    longest: dict[str, int] = {}
    for states in places.values():
        for s in states:
            longest[s.protocol.group] = max(longest.get(s.protocol.group, 0), s.protocol.days)
    order = sorted(longest, key=lambda group: (longest[group], group))
    for enclosure_id, states in places.items():
        state = max(states, key=lambda s: order.index(s.protocol.group))
        rank = LAST + order.index(state.protocol.group)
        yield CareRank(enclosure_id, rank, reason(state), state.protocol.group, before(state))


def reason(state: QuarantineState) -> str:
    """Why the enclosure comes last."""
    return f"quarantine, day {state.day} of {state.protocol.days}, residents come first"


def before(state: QuarantineState) -> str:
    """What is said before the group of enclosures."""
    return (
        f"wash hands, change tools; now quarantine, group {state.protocol.group}: "
        f"{state.protocol.tools}"
    )
