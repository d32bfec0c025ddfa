"""Who lives where, and what all plugins say about them, for labels."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from typing import Any

from warmside.api import About, Animal, Ask, Enclosure, LabelLine, Task
from warmside.plugins.labels.content.animals import Occupant, Sex
from warmside.plugins.labels.content.residents import Residents
from warmside.plugins.labels.content.slots import texts_for

DAYS_AHEAD = 14
SETTLED_BY = {"meal": "fed", "misting": "misted"}


def of_animal(ask: Ask, animal: Animal, on: date) -> Residents:
    """What the card of an animal needs."""
    lines = lines_about(ask, About(animal.id), on)
    return Residents((_occupant(animal, lines),), {animal.name: lines})


def of_enclosure(ask: Ask, place: Enclosure, on: date, *, coming: bool = False) -> Residents:
    """What a label of an enclosure needs; with `coming`, also when plugins expect what."""
    animals = [ask.book.animals[a] for a in _inside(ask, on).get(place.id, ())]
    names = _distinct(animals)
    lines = {a.id: lines_about(ask, About(a.id), on) for a in animals}
    return Residents(
        tuple(_occupant(a, lines[a.id]) for a in animals),
        {names[id]: mine for id, mine in lines.items()},
        lines_about(ask, About(enclosure_id=place.id), on),
        _days_of(ask, place, names, on) if coming else {},
    )


def lines_about(ask: Ask, about: About, on: date) -> tuple[LabelLine, ...]:
    """What all plugins say about an animal or an enclosure, always in the same order."""
    return tuple(sorted(ask.label_lines(about, on), key=lambda x: (x.order, x.key, x.text)))


def lines_given(ask: Ask, on: date) -> dict[str, str]:
    """The lines that plugins give for any animal or enclosure here, with the first text of each."""
    book = ask.book
    places = [About(enclosure_id=e.id) for e in book.enclosures.values() if not e.retired]
    found: dict[str, str] = {}
    for about in (*map(About, book.animals_here(on)), *places):
        for line in lines_about(ask, about, on):
            found.setdefault(line.key, line.text)
    return found


def settings_for(ask: Ask, about: About) -> Mapping[str, Any]:
    """The settings of labels as they hold for one animal or enclosure."""
    return {name: ask.setting("labels", name, about) for name in ask.settings("labels")}


def _inside(ask: Ask, on: date) -> Mapping[int, tuple[int, ...]]:
    return ask.book.once(("labels", "inside", on), lambda: ask.book.occupants(on))


def _occupant(animal: Animal, lines: tuple[LabelLine, ...]) -> Occupant:
    """An animal as labels name it."""
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


def _distinct(animals: list[Animal]) -> dict[int, str]:
    """A name for each animal that no other of them has: its code where names are alike."""
    names = [a.name for a in animals]
    return {a.id: a.name if names.count(a.name) == 1 else a.label for a in animals}


def _days_of(
    ask: Ask, place: Enclosure, names: Mapping[int, str], on: date
) -> dict[str, dict[str, str]]:
    """When each slot's task comes next: by animal's name, "" for the enclosure itself."""
    whom = {name: About(id) for id, name in names.items()} | {"": About(None, place.id)}
    coming: dict[str, dict[str, str]] = {}
    for slot, kind in SETTLED_BY.items():
        tasks = {name: _coming(ask, on).get((kind, about)) for name, about in whom.items()}
        coming[slot] = {name: _when(task, on) for name, task in tasks.items() if task}
    return coming


def _when(task: Task, on: date) -> str:
    day = max(task.due, on)
    return f"{day:%a} {day.isoformat()}, {task.what}"


def _coming(ask: Ask, on: date) -> dict[tuple[str, About], Task]:
    """The next task of each kind for each subject within the days ahead."""

    def make() -> dict[tuple[str, About], Task]:
        found: dict[tuple[str, About], Task] = {}
        tasks = ask.tasks(on + timedelta(days=DAYS_AHEAD))
        for _, task in sorted(tasks, key=lambda t: (t[1].due, t[0]), reverse=True):
            animal = task.about.animal_id
            about = About(animal) if animal is not None else task.about
            found[task.settles, about] = task
        return found

    return ask.book.once(("labels", "coming", on), make)
