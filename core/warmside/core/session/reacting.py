"""What plugins add to a step before it commits: a second round hears of the first, no third."""

from __future__ import annotations

from typing import Any

from warmside.core.asking.ask import Ask
from warmside.core.plugins.host import Host, stopped
from warmside.core.record.entities import Event, NewEvent
from warmside.core.record.steps import StepWriter, check_subject
from warmside.core.values.errors import WarmsideError

RECORDED, CHANGED = "warmside_events_recorded", "warmside_rows_changed"
Reaction = tuple[str, str, NewEvent]  # plugin, hook, what it adds


def react(writer: StepWriter, host: Host) -> None:
    """Let plugins add events to the step, or refuse it; then hear once of what others added."""
    events, changes = tuple(writer.recorded), writer.changes()
    ask = Ask(writer.reread(), host)
    first: list[Reaction] = []
    if events:
        first += _heard(ask, writer, RECORDED, {"events": events})
    if changes:
        first += _heard(ask, writer, CHANGED, {"changes": changes})
    added = _recorded(ask, writer, first)
    if added:
        ask = Ask(writer.reread(), host)
        _recorded(ask, writer, _second(ask, writer, added))


def objections(writer: StepWriter, host: Host) -> list[tuple[str, WarmsideError]]:
    """What each plugin has against the events of a step, without waiting for the others."""
    ask, found = Ask(writer.reread(), host), list[tuple[str, WarmsideError]]()
    events = tuple(writer.recorded)
    for plugin in host.manifests if events else ():
        try:
            _heard(ask, writer, RECORDED, {"events": events}, only=plugin)
        except WarmsideError as error:
            found.append((plugin, error))
    return found


def _second(ask: Ask, writer: StepWriter, added: list[tuple[str, Event]]) -> list[Reaction]:
    """What each plugin adds to what the others did; of its own it knows."""
    found: list[Reaction] = []
    for plugin in ask.host.manifests:
        others = tuple(event for owner, event in added if owner != plugin)
        if others:
            found += _heard(ask, writer, RECORDED, {"events": others}, only=plugin)
    return found


def _heard(
    ask: Ask, writer: StepWriter, hook: str, given: dict[str, Any], only: str | None = None
) -> list[Reaction]:
    asked = {"book": ask.book, "ask": ask, "confirmed": writer.confirmed, **given}
    return [(p, hook, new) for p, new in ask.host.require(hook, NewEvent, only=only, **asked)]


def _recorded(ask: Ask, writer: StepWriter, reactions: list[Reaction]) -> list[tuple[str, Event]]:
    """The events that were added, each with its plugin."""
    for plugin, hook, new in reactions:
        try:
            check_subject(ask.kind(new.kind), new, ask.book)
        except WarmsideError as error:
            raise stopped(plugin, hook, error) from error
    made = writer.record_checked([new for _, _, new in reactions])
    return [(plugin, event) for (plugin, _, _), event in zip(reactions, made, strict=True)]
