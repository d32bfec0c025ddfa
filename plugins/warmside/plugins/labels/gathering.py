"""What a label needs to know, read from the record and from what all plugins say."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from functools import cached_property

from warmside.api import Animal, Book, Enclosure, LabelLine, Task
from warmside.plugins.labels.content import LabelText, Occupant, Sex
from warmside.plugins.labels.notes import enclosure_lines
from warmside.plugins.labels.slots import extra_lines, texts_for, told

DAYS_AHEAD = 14
SETTLED_BY = {"meal": "fed", "misting": "misted"}


@dataclass(frozen=True, slots=True)
class Residents:
    """Who a label is about, and what the plugins and the keeper say about each, by name."""

    occupants: tuple[Occupant, ...]
    lines: Mapping[str, tuple[LabelLine, ...]]
    place_lines: tuple[LabelLine, ...] = ()
    coming: Mapping[str, Mapping[str, str]] = field(default_factory=dict)

    def slot(self, slot: str) -> str:
        """What goes into a slot of the label, in one line; of the enclosure before its animals."""
        own = texts_for(slot, self.place_lines)
        if own:
            return "; ".join(own)
        texts = {name: texts_for(slot, lines) for name, lines in self.lines.items()}
        if any(texts.values()):
            return told(texts)
        due = self.coming.get(slot, {})
        return due.get("") or told({name: [due[name]] if name in due else [] for name in texts})

    def listed(self, slot: str) -> list[str]:
        """All that goes into a slot, each text once."""
        lines = [*self.place_lines, *(line for mine in self.lines.values() for line in mine)]
        return texts_for(slot, lines)

    def extra(self) -> list[LabelText]:
        """The plugins' lines, ready to be picked."""
        return extra_lines(self.lines)


class Gatherer:
    """Reads what labels need from one book, each thing once."""

    def __init__(self, book: Book, on: date) -> None:
        self.book = book
        self.on = on
        self._lines: dict[int, tuple[LabelLine, ...]] = {}

    @cached_property
    def _inside(self) -> dict[int, tuple[int, ...]]:
        return self.book.occupants(self.on)

    def lines_of(self, animal_id: int) -> tuple[LabelLine, ...]:
        """What all plugins say about an animal, in their order."""
        if animal_id not in self._lines:
            found = self.book.host.collect(
                "warmside_label_lines", LabelLine, book=self.book, animal_id=animal_id, on=self.on
            )
            self._lines[animal_id] = tuple(sorted((x for _, x in found), key=_line_order))
        return self._lines[animal_id]

    def occupant(self, animal: Animal) -> Occupant:
        """An animal as labels name it."""
        lines = self.lines_of(animal.id)
        return Occupant(
            animal.code,
            animal.name,
            animal.species.common,
            animal.species.scientific,
            Sex[animal.sex.upper()],
            animal.hatched.text if animal.hatched else "",
            "; ".join(texts_for("genes", lines)),
            animal.origin,
            "; ".join(texts_for("feeding", lines)),
        )

    def of_animal(self, animal: Animal) -> Residents:
        """What the card of an animal needs."""
        return Residents((self.occupant(animal),), {animal.name: self.lines_of(animal.id)})

    def of_enclosure(self, enclosure: Enclosure, *, coming: bool = False) -> Residents:
        """What a label of an enclosure needs; with `coming`, also when plugins expect what."""
        animals = [self.book.animals[a] for a in self._inside.get(enclosure.id, ())]
        names = _distinct(animals)
        return Residents(
            tuple(self.occupant(a) for a in animals),
            {names[a.id]: self.lines_of(a.id) for a in animals},
            tuple(enclosure_lines(self.book, enclosure.id)),
            self._days_of(enclosure, names) if coming else {},
        )

    def _days_of(self, enclosure: Enclosure, names: Mapping[int, str]) -> dict[str, dict[str, str]]:
        """When each slot's task comes next: by animal's name, "" for the enclosure itself."""
        coming: dict[str, dict[str, str]] = {}
        for slot, kind in SETTLED_BY.items():
            days = {name: self._when(kind, ("animal", id)) for id, name in names.items()}
            days[""] = self._when(kind, ("enclosure", enclosure.id))
            coming[slot] = {name: text for name, text in days.items() if text}
        return coming

    def _when(self, kind: str, subject: tuple[str, int]) -> str:
        task = self._coming.get((kind, *subject))
        if task is None:
            return ""
        day = max(task.due, self.on)
        return f"{day:%a} {day.isoformat()}, {task.what}"

    @cached_property
    def _coming(self) -> dict[tuple[str, str, int], Task]:
        """The next task of each kind for each subject within the days ahead."""
        found: dict[tuple[str, str, int], Task] = {}
        ahead = self.on + timedelta(days=DAYS_AHEAD)
        tasks = self.book.host.collect("warmside_tasks", Task, book=self.book, on=ahead)
        for _, task in sorted(tasks, key=lambda t: (t[1].due, t[0]), reverse=True):
            if task.animal_id is not None:
                found[task.settles, "animal", task.animal_id] = task
            elif task.enclosure_id is not None:
                found[task.settles, "enclosure", task.enclosure_id] = task
        return found


def _line_order(line: LabelLine) -> tuple[int, str, str]:
    return (line.order, line.key, line.text)


def _distinct(animals: list[Animal]) -> dict[int, str]:
    """A name for each animal that no other of them has: its code where names are alike."""
    names = [a.name for a in animals]
    return {a.id: a.name if names.count(a.name) == 1 else a.label for a in animals}
