"""The tool groups of the animals in quarantine on a day."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from warmside.api import Ask, Book
from warmside.plugins.quarantine.clock.state import QuarantineState
from warmside.plugins.quarantine.contact.tool_groups import (
    Member,
    ToolGroup,
    groups_by_animal,
    tool_groups,
)
from warmside.plugins.quarantine.reading.events import current
from warmside.plugins.quarantine.reading.standing import standing


def groups(ask: Ask, on: date) -> list[ToolGroup]:
    """All tool groups, in the order in which they are cared for."""

    def make() -> list[ToolGroup]:
        states = standing(ask, on).states
        return tool_groups(_member(ask.book, a, s, on) for a, s in states.items())

    return ask.book.once(("quarantine", "tool groups", on), make)


def group_names(ask: Ask, on: date) -> Mapping[int, str]:
    """What the tools of each animal in quarantine are called, by its id."""
    return {a: group.name for a, group in groups_by_animal(groups(ask, on)).items()}


def _member(book: Book, animal_id: int, state: QuarantineState, on: date) -> Member:
    place = book.animals_here(on)[animal_id].enclosure_id
    room = book.enclosures[place].room.strip() if place is not None else ""
    return Member(animal_id, state, _source(book, state), place, room)


def _source(book: Book, state: QuarantineState) -> str:
    """From whom the animal came, as its arrival says."""
    arrival = book.event(state.start_event).data["arrival"]
    came = current(book, arrival) if arrival is not None else None
    return str(came.data.get("source") or "").strip() if came is not None else ""
