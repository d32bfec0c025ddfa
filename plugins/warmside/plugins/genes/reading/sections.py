"""The sections about genes of reports and of an owner's sheet."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import Animal, Ask, Section
from warmside.plugins.genes.inheritance.settled import settled
from warmside.plugins.genes.reading.family import kin_of
from warmside.plugins.genes.telling.animal import handed_over, shown


def section(ask: Ask, animal: Animal, on: date) -> Iterator[Section]:
    """What an animal carries; nothing where nothing is recorded of its family."""
    kin = kin_of(ask, [animal], on)
    if kin.said:
        labels = {id: ask.book.animals[id].label for id in kin.said}
        yield Section("Genes", shown(animal, kin, settled(kin.family), labels).parts, 420)


def owner_section(ask: Ask, animal: Animal, on: date) -> Iterator[Section]:
    """What the next owner is told; nothing where nothing is recorded of its family."""
    kin = kin_of(ask, [animal], on)
    if kin.said:
        yield Section("Genes", handed_over(animal, kin, settled(kin.family)), 420)
