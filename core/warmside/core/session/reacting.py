"""What plugins add to a step before it commits: a second round hears of the first, no third."""

from __future__ import annotations

from typing import Any

from warmside.core.asking.ask import Ask
from warmside.core.plugins.host import Host, stopped
from warmside.core.record.entities import Event, NewEvent, RowChange
from warmside.core.record.steps import StepWriter, check_subject
from warmside.core.values.errors import WarmsideError

DEPTH = 2


def react(writer: StepWriter, host: Host) -> None:
    """Let plugins add events to the step, or refuse it."""
    events, changes = tuple(writer.recorded), writer.changes()
    for _ in range(DEPTH):
        if not events and not changes:
            return
        before = len(writer.recorded)
        _round(writer, host, events, changes)
        events, changes = tuple(writer.recorded[before:]), ()


def _round(
    writer: StepWriter, host: Host, events: tuple[Event, ...], changes: tuple[RowChange, ...]
) -> None:
    ask = Ask(writer.reread(), host)
    common: dict[str, Any] = {"book": ask.book, "ask": ask, "confirmed": writer.confirmed}
    answers = []
    given: dict[str, Any]
    for hook, given in (
        ("warmside_events_recorded", {"events": events}),
        ("warmside_rows_changed", {"changes": changes}),
    ):
        if any(given.values()):
            found = host.require(hook, NewEvent, **common, **given)
            answers += [(plugin, hook, new) for plugin, new in found]
    for plugin, hook, new in answers:
        try:
            check_subject(host.kinds.named(new.kind), new, ask.book)
        except WarmsideError as error:
            raise stopped(plugin, hook, error) from error
    writer.record_checked([new for _, _, new in answers])
