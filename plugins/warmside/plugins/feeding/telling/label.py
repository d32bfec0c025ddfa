"""What a sitter reads on a label: the diet and how often."""

from __future__ import annotations

from collections.abc import Iterator

from warmside.api import About, LabelLine
from warmside.plugins.feeding.care.cautions import left_alone
from warmside.plugins.feeding.planning.whole import whole_plan
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.telling.whole import often


def label_lines(reading: Reading, about: About) -> Iterator[LabelLine]:
    """One line: of the animal, or of those that live in the enclosure, each by its name."""
    told = {a: line for a in reading.meant(about) if (line := diet(reading, a))}
    if about.animal_id is None and len(told) > 1:
        names = reading.book.animals
        told = {a: f"{names[a].label}: {line}" for a, line in told.items()}
    if told:
        yield LabelLine("feeding.diet", "; ".join(told.values()))
    if any(_is_left_alone(reading, a) for a in reading.meant(about)):
        yield LabelLine("feeding.do-not", "handle it for 48 hours after a meal")


def diet(reading: Reading, animal_id: int) -> str:
    """`1 × adult mouse every 10 to 21 days`, as the plan says it; empty where that is not known."""
    subject = reading.subject(animal_id)
    if subject is None:
        return ""
    plans = whole_plan(subject, reading.on, reading.rules)
    return ", ".join(f"{part.words or 'food'} {often(part)}" for part in plans)


def _is_left_alone(reading: Reading, animal_id: int) -> bool:
    species = reading.species(animal_id)
    return species is not None and left_alone(species)
