"""The line about genes on labels."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from warmside.api import LabelLine
from warmside.plugins.genes.reading.said import Said
from warmside.plugins.genes.traits.words import Carries, Known

UNSURE = (Carries.PART, Carries.POSSIBLE)


def label_line(said: Sequence[Said], is_proven: Callable[[Known], bool]) -> Iterator[LabelLine]:
    """What is recorded of an animal, the last of each trait; nothing where it only looks normal.

    A possible het that its family leaves no doubt of is a proven one.
    """
    last = {s.known.trait.name: s.known for s in said if s.known}
    shown = [k for k in last.values() if k.carries is not Carries.NORMAL]
    words = [
        f"proven het {k.trait.name}" if k.carries in UNSURE and is_proven(k) else k.words
        for k in shown
    ]
    if words:
        yield LabelLine("genes.known", ", ".join(words), 150)
