"""The line about genes on labels."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from warmside.api import LabelLine
from warmside.plugins.genes.reading.said import Said
from warmside.plugins.genes.traits.words import Carries


def label_line(said: Sequence[Said]) -> Iterator[LabelLine]:
    """What is recorded of an animal, the last of each trait; nothing where it only looks normal."""
    last = {s.known.trait.name: s.known for s in said if s.known}
    words = [k.words for k in last.values() if k.carries is not Carries.NORMAL]
    if words:
        yield LabelLine("genes.known", ", ".join(words), 150)
