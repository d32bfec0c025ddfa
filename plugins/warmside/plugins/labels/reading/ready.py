"""The labels of a print: those chosen, each with who is on it and its settings."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from msgspec import Struct

from warmside.api import About, Ask, NotFound
from warmside.plugins.labels.content.label import LabelKind
from warmside.plugins.labels.content.making import NOBODY, Subject, card_of, label_of
from warmside.plugins.labels.content.picking import Ready, picked
from warmside.plugins.labels.reading.choosing import Choice, chosen_animals, chosen_enclosures
from warmside.plugins.labels.reading.memory import fingerprints, is_changed
from warmside.plugins.labels.reading.residents import of_animal, of_enclosure, settings_for


class Wanted(Struct, frozen=True):
    """What labels: the kind, for whom, their lines (empty for all), a danger, only changed ones."""

    kind: LabelKind
    choice: Choice
    lines: str = ""
    hazard: str = ""
    changed: bool = False


def ready_labels(ask: Ask, wanted: Wanted, on: date) -> tuple[list[Ready], list[str]]:
    """The labels in the order of the print, and warnings about lines that nobody gives."""
    of_animals = wanted.kind is LabelKind.ANIMAL
    made = list(_cards(ask, wanted, on) if of_animals else _placed(ask, wanted, on))
    if not made:
        raise NotFound(NOBODY[wanted.kind])
    lines = wanted.lines or ask.setting("labels", f"{wanted.kind.value}_lines")
    ready, warnings = picked(made, lines)
    if wanted.changed:
        before = fingerprints(ask.book)
        ready = [r for r in ready if is_changed(r.label, before)]
    return ready, warnings


def _cards(ask: Ask, wanted: Wanted, on: date) -> Iterator[Ready]:
    for animal in chosen_animals(ask, wanted.choice, on):
        yield card_of(of_animal(ask, animal, on), settings_for(ask, About(animal.id)))


def _placed(ask: Ask, wanted: Wanted, on: date) -> Iterator[Ready]:
    coming = wanted.kind is LabelKind.SITTER
    for place in chosen_enclosures(ask, wanted.choice, on):
        subject = Subject(
            place,
            of_enclosure(ask, place, on, coming=coming),
            settings_for(ask, About(enclosure_id=place.id)),
            wanted.choice.is_named,
            wanted.hazard,
        )
        ready = label_of(wanted.kind, subject)
        if ready is not None:
            yield ready
