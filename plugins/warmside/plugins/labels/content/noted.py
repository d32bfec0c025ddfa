"""What the keeper may note for labels, checked as it is typed."""

from __future__ import annotations

from warmside.api import BadInput, near_miss, quoted
from warmside.plugins.labels.content.hazards import find_hazard
from warmside.plugins.labels.content.slots import NOTED

LONGEST_NOTE = 400


def checked_slot(slot: str) -> str:
    """The slot that was typed; BadInput for one that has no note."""
    if slot not in NOTED:
        near = near_miss(slot, NOTED)
        raise BadInput(f"no note {quoted(slot)!r}{near}; known are {', '.join(NOTED)}")
    return slot


def checked_text(slot: str, text: str) -> str:
    """A note's text on one line; BadInput for an unknown danger, nothing, or far too much."""
    text = " ".join(text.split())
    if slot == "hazard":
        return find_hazard(text).name
    if not text or len(text) > LONGEST_NOTE:
        raise BadInput(f"a note has 1 to {LONGEST_NOTE} characters, not {len(text)}")
    if not text.isprintable():
        raise BadInput(f"note {quoted(text)!r} holds control characters; type it again")
    return text
