"""The plugin's own kind of event: a weighing that looked odd and is right."""

from __future__ import annotations

from warmside.api import Event, EventKind, NewEvent, fields

CHECKED = "weight.checked"
_LARGEST_ID = 2**53


class Checked:
    """The keeper says that a weighing is right though it looks odd."""

    weighing: int | None = fields.whole(
        "number of the weighing that is right", least=1, most=_LARGEST_ID
    )


KINDS = (EventKind(CHECKED, "weight checked", Checked),)


def said_right(weighing: Event) -> NewEvent:
    """The keeper says that a weighing is right."""
    right = {"weighing": weighing.id}
    return NewEvent(CHECKED, weighing.day, right, weighing.animal_id, at=weighing.at)
