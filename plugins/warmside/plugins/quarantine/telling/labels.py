"""Label lines of those in quarantine: of one animal, or of all in an enclosure."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from warmside.api import LabelLine
from warmside.plugins.quarantine.clock.state import QuarantineState


def label_lines(rows: Sequence[tuple[str, QuarantineState]]) -> Iterator[LabelLine]:
    """The lines of states with their tool group; of several the first day and the last end."""
    if not rows:
        return
    states = [state for _, state in rows]
    since = min(s.clock_start for s in states)
    groups = ", ".join(dict.fromkeys(group for group, _ in rows))
    tools = "; ".join(dict.fromkeys(s.protocol.tools for s in states))
    yield LabelLine("quarantine.sign", "QUARANTINE, do last", 100)
    yield LabelLine("quarantine.since", f"quarantine since {since}", 110)
    yield LabelLine("quarantine.end", _end(states), 120)
    yield LabelLine("quarantine.group", f"tool group {groups}", 130)
    yield LabelLine("quarantine.tools", tools, 140)


def _end(states: Sequence[QuarantineState]) -> str:
    ends = [s.earliest_end for s in states if s.earliest_end is not None]
    if len(ends) < len(states):
        return "no end date: a positive result stands"
    return f"earliest end {max(ends)}"
