"""The place of quarantined enclosures in the round: last, a tool group at a time."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from warmside.api import CareRank
from warmside.plugins.quarantine.clock.state import QuarantineState
from warmside.plugins.quarantine.contact.tool_groups import ToolGroup

LAST = 900


def care_ranks(groups: Iterable[ToolGroup]) -> Iterator[CareRank]:
    """A rank for each enclosure of each group, in the order of the groups."""
    for number, group in enumerate(groups):
        places = dict.fromkeys(m.enclosure_id for m in group.members)
        for enclosure_id in places:
            if enclosure_id is None:
                continue
            inside = (m.state for m in group.members if m.enclosure_id == enclosure_id)
            state = max(inside, key=lambda s: (bool(s.positives), s.protocol.days))
            yield CareRank(enclosure_id, LAST + number, reason(state), group.name, before(group))


def reason(state: QuarantineState) -> str:
    """Why the enclosure comes last."""
    where = f"day {state.day} of {state.protocol.days}"
    if state.positives:
        where = "a positive result stands"
    return f"quarantine, {where}, residents come first"


def before(group: ToolGroup) -> str:
    """What is said before the group of enclosures: once, not with each task."""
    tools = "; ".join(dict.fromkeys(m.state.protocol.tools for m in group.members))
    return f"wash hands, change tools; now quarantine, group {group.name}: {tools}"
