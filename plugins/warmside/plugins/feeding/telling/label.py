"""What a sitter reads on a label: the diet and how often."""

from __future__ import annotations

from collections.abc import Iterator

from warmside.api import About, LabelLine
from warmside.plugins.feeding.care.own import spelled
from warmside.plugins.feeding.planning.next_meal import plan
from warmside.plugins.feeding.reading import Reading


def label_lines(reading: Reading, about: About) -> Iterator[LabelLine]:
    """One line: of the animal, or of those that live in the enclosure, each by its name."""
    told = {a: line for a in reading.meant(about) if (line := _diet(reading, a))}
    if about.animal_id is None and len(told) > 1:
        names = reading.book.animals
        told = {a: f"{names[a].label}: {line}" for a, line in told.items()}
    if told:
        yield LabelLine("feeding.diet", "; ".join(told.values()))
    if any(_eats_whole_prey(reading, a) for a in reading.meant(about)):
        yield LabelLine("feeding.do-not", "handle it for 48 hours after a meal")


def _diet(reading: Reading, animal_id: int) -> str:
    subject = reading.subject(animal_id, ask=False)
    if subject is None:
        return ""
    found = plan(subject, reading.on, reading.rules)
    best = found.fits[0] if found.fits else None
    food = best.dish if best else subject.species.diet.name or "food"
    return f"{food} every {spelled((found.interval.low, found.interval.high))} days"


def _eats_whole_prey(reading: Reading, animal_id: int) -> bool:
    species = reading.species(animal_id)
    return species is not None and species.diet.has("rodent", "bird")
