"""Who a label is about, and what plugins and the keeper say about them."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct, field

from warmside.api import LabelLine
from warmside.plugins.labels.content.animals import Occupant
from warmside.plugins.labels.content.label import LabelText, lines_of
from warmside.plugins.labels.content.slots import (
    DONOT,
    extra_lines,
    is_own,
    slot_of,
    texts_for,
    told,
)


class Residents(Struct, frozen=True):
    """Who a label is about, and what the plugins and the keeper say about each, by name.

    `place_lines` are those about the enclosure itself, `coming` when each slot's task comes next:
    by animal's name, "" for the enclosure.
    """

    occupants: tuple[Occupant, ...]
    lines: Mapping[str, tuple[LabelLine, ...]]
    place_lines: tuple[LabelLine, ...] = ()
    coming: Mapping[str, Mapping[str, str]] = field(default_factory=dict)

    def slot(self, slot: str) -> str:
        """What goes into a slot of the label, in one line.

        The keeper's note about the enclosure first, then what is said of the animals, what plugins
        say of the enclosure, and when the next task comes.
        """
        own = texts_for(slot, filter(is_own, self.place_lines))
        if own:
            return "; ".join(own)
        texts = {name: texts_for(slot, lines) for name, lines in self.lines.items()}
        if any(texts.values()):
            return told(texts)
        place = texts_for(slot, self.place_lines)
        return "; ".join(place) if place else self._coming(slot)

    def _coming(self, slot: str) -> str:
        due = self.coming.get(slot, {})
        return due.get("") or told(
            {name: [due[name]] if name in due else [] for name in self.lines}
        )

    def listed(self, slot: str) -> list[str]:
        """All that goes into a slot, each text once."""
        animals = [line for mine in self.lines.values() for line in mine]
        known = any(slot_of(line.key) == slot for line in animals)
        place = filter(is_own, self.place_lines) if known and slot != DONOT else self.place_lines
        return texts_for(slot, [*place, *animals])

    def extra(self) -> tuple[LabelText, ...]:
        """The plugins' lines, ready to be picked."""
        return lines_of(*extra_lines(self.lines, self.place_lines))
