"""Label lines of those in quarantine: of one animal, or of all in an enclosure."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from warmside.api import LabelLine
from warmside.plugins.quarantine.clock.state import QuarantineState


def label_lines(states: Sequence[QuarantineState]) -> Iterator[LabelLine]:
    """The lines; of several animals the first day, the last end, and every group."""
    if not states:
        return
    since = min(s.clock_start for s in states)
    end = max(s.earliest_end for s in states)
    groups = ", ".join(dict.fromkeys(s.protocol.group for s in states))
    tools = "; ".join(dict.fromkeys(s.protocol.tools for s in states))
    yield LabelLine("quarantine.sign", "QUARANTINE, do last", 100)
    yield LabelLine("quarantine.since", f"quarantine since {since}", 110)
    yield LabelLine("quarantine.end", f"earliest end {end}", 120)
    yield LabelLine("quarantine.group", f"quarantine group {groups}", 130)
    yield LabelLine("quarantine.tools", tools, 140)
