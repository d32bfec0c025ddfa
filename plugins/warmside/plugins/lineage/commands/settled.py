"""What a settled task of eggs or of a hatchling writes."""

from __future__ import annotations

from collections.abc import Iterator

from warmside.api import BadInput, NewEvent, StepWriter, Task, When, entering, quoted
from warmside.plugins.lineage.hatching.first_weeks import SEX
from warmside.plugins.lineage.kinds import EGGS, MOST_EGGS
from warmside.plugins.lineage.reading.eggs import parent_of


def settled(writer: StepWriter, task: Task, value: str, when: When, note: str) -> Iterator[str]:
    """Note that it was done, in words; nothing for a task that has its own command."""
    if "clutch_id" in task.data:
        yield _eggs(writer, int(task.data["clutch_id"]), value, when, note)
    elif task.data.get("what") == SEX and task.about.animal_id is not None:
        yield _sex(writer, task.about.animal_id, value)


def _eggs(writer: StepWriter, clutch_id: int, value: str, when: When, note: str) -> str:
    """The look at the eggs; a value is how many good ones are left."""
    clutch = writer.book.clutches[clutch_id]
    good = _count(value) if value else None
    data = {"clutch_id": clutch_id, "good": good}
    new = NewEvent(EGGS, when.day, data, parent_of(clutch), at=when.at, note=note)
    writer.record_checked([new])
    left = "" if good is None else f": {good} good"
    return f"looked at the eggs of {clutch.label}{left}"


def _count(text: str) -> int:
    if not text.isdecimal() or int(text) > MOST_EGGS:
        raise BadInput(f"{quoted(text)} is no number of eggs; type how many good ones are left")
    return int(text)


def _sex(writer: StepWriter, animal_id: int, value: str) -> str:
    animal = writer.book.animals[animal_id]
    if not value:
        raise BadInput(f"say the sex of {animal.label} behind the number, such as 3=female")
    changed = entering.change_animal(writer, animal, sex=value)
    return f"{animal.label} is {changed.sex}"
