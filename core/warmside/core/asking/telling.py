"""Events in one line each, for steps and corrections."""

from __future__ import annotations

from collections.abc import Iterable

from warmside.core.asking.ask import Ask
from warmside.core.record.entities import Event


def told(ask: Ask, event: Event) -> str:
    """The whole event in one line."""
    return f"{ask.when_words(event)} {ask.subject_words(event)}: {ask.event_words(event)}"


def step_words(ask: Ask, events: Iterable[Event]) -> list[str]:
    """What a step did, in the keeper's words, for undo's preview."""
    listed = list(events)
    told = [f"{ask.subject_words(e)}: {ask.event_words(e)}" for e in listed[:3]]
    return told + ([f"and {len(listed) - 3} more"] if len(listed) > 3 else [])
