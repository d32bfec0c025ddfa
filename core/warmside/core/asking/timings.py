"""How long each plugin took in each hook."""

from __future__ import annotations

from warmside.core.answers.parts import Column, Kind, Table
from warmside.core.plugins.collecting import Collects


def timings(host: Collects) -> Table:
    """Milliseconds by plugin and hook, the longest first; waiting for other plugins counts."""
    columns = (
        Column("plugin", "plugin", Kind.CODE),
        Column("hook", "hook"),
        Column("milliseconds", "ms"),
    )
    longest = sorted(host.seconds.items(), key=lambda item: -item[1])
    rows = tuple(
        (plugin, hook.removeprefix("warmside_"), round(1000 * seconds, 2))
        for (plugin, hook), seconds in longest
    )
    return Table("timings", columns, rows, "Time taken", empty="no plugin is at work")
