"""Which animals in quarantine share tools: those of one protocol's group that came together.

Together means on one day and from one source, or into one enclosure.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date

from msgspec import Struct

from warmside.plugins.quarantine.clock.state import QuarantineState

MOST_SOURCE = 30  # letters of a source that a name takes


class Member(Struct, frozen=True):
    """An animal in quarantine: from whom it came ("" if unknown), and where it lives."""

    animal_id: int
    state: QuarantineState
    source: str
    enclosure_id: int | None
    room: str


class ToolGroup(Struct, frozen=True):
    """Animals that share tools, with what the tools are called."""

    name: str
    members: tuple[Member, ...]

    @property
    def order(self) -> tuple[bool, date, int, str, str]:
        """Later is more doubtful: suspects last, then who came later, then the longer protocol."""
        states = [m.state for m in self.members]
        came, days = max(s.started for s in states), max(s.protocol.days for s in states)
        room = max(m.room for m in self.members)
        return any(s.suspect for s in states), came, days, room, self.name


def tool_groups(members: Iterable[Member]) -> list[ToolGroup]:
    """The groups in the order in which they are cared for."""
    groups = [ToolGroup(_name(group), tuple(group)) for group in _joined(list(members))]
    return sorted(groups, key=lambda g: g.order)


def groups_by_animal(groups: Iterable[ToolGroup]) -> Mapping[int, ToolGroup]:
    """The group of each animal, by its id."""
    return {m.animal_id: group for group in groups for m in group.members}


def _joined(members: list[Member]) -> list[list[Member]]:
    """Members that belong together, whoever links them."""
    found: list[list[Member]] = []
    for member in members:
        near = [group for group in found if any(_together(member, other) for other in group)]
        found = [group for group in found if group not in near]
        found.append([*(m for group in near for m in group), member])
    return found


def _together(a: Member, b: Member) -> bool:
    if a.enclosure_id is not None and a.enclosure_id == b.enclosure_id:
        return True
    one, other = ((m.state.protocol.group, m.state.started, m.source.casefold()) for m in (a, b))
    return one == other


def _name(group: list[Member]) -> str:
    """`general of 2026-03-05 from Fair`: it stays the same when other groups come and go."""
    protocols = " and ".join(sorted({m.state.protocol.group for m in group}))
    sources = ", ".join(dict.fromkeys(m.source[:MOST_SOURCE] for m in group if m.source))
    name = f"{protocols} of {min(m.state.started for m in group)}"
    return f"{name} from {sources}" if sources else name
