"""What a settled task of a laying, of eggs or of a hatchling writes."""

from __future__ import annotations

from collections.abc import Iterator

from warmside.api import Ask, BadInput, NewEvent, StepWriter, Task, When, counted, entering, quoted
from warmside.plugins.lineage.commands.entering import enter
from warmside.plugins.lineage.commands.hatching import check_hatching, enter_litter
from warmside.plugins.lineage.commands.laying import enter_eggs
from warmside.plugins.lineage.commands.mothers import Mother
from warmside.plugins.lineage.hatching.brood import brood_of
from warmside.plugins.lineage.hatching.first_weeks import SEX
from warmside.plugins.lineage.kinds import EGGS, MOST_EGGS
from warmside.plugins.lineage.reading.eggs import parent_of
from warmside.plugins.lineage.reading.season import figures_of
from warmside.plugins.lineage.telling.entered import AFTER_BIRTH, AFTER_LAYING, CARE


def settled(
    writer: StepWriter, ask: Ask, task: Task, value: str, when: When, note: str
) -> Iterator[str]:
    """Write what was seen, in words; nothing for a task that is none of these."""
    if "clutch_id" in task.data:
        yield _eggs(writer, int(task.data["clutch_id"]), value, when, note)
    elif "hatching" in task.data:
        yield from _hatched(writer, ask, int(task.data["hatching"]), value, when, note)
    elif "expected" in task.data and task.about.animal_id is not None:
        animal = ask.book.animals[task.about.animal_id]
        mother = Mother(ask, animal, when, figures_of(ask, animal))
        came = _born if task.data["expected"] == "young" else _laid
        yield from came(writer, mother, _count(value), note)
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


def _hatched(
    writer: StepWriter, ask: Ask, clutch_id: int, value: str, when: When, note: str
) -> Iterator[str]:
    """So many young of a clutch, of which nothing else is known yet."""
    clutch, young = ask.book.clutches[clutch_id], brood_of([], _count(value))
    check_hatching(ask, clutch, young, when, 0, confirm=writer.confirmed)
    made = enter(writer, ask, clutch, young, when, into=None, stem=None, note=note)
    yield f"{len(made)} young of {clutch.label} {'is' if len(made) == 1 else 'are'} entered"
    yield CARE


def _born(writer: StepWriter, mother: Mother, count: int, note: str) -> Iterator[str]:
    """A litter of so many, all alive."""
    litter = brood_of([], count)
    clutch = enter_litter(writer, mother, litter, 0, note=note)
    enter(writer, mother.ask, clutch, litter, mother.when, into=None, stem=None)
    yield f"{counted(count, 'young', 'young')} of {mother.animal.label}: {clutch.label}"
    yield f"{CARE} {AFTER_BIRTH}"


def _laid(writer: StepWriter, mother: Mother, count: int, note: str) -> Iterator[str]:
    """So many eggs, of which it is not said how many are good."""
    clutch = enter_eggs(writer, mother, (count, None), note=note)
    yield f"{counted(count, 'egg')} of {mother.animal.label}: {clutch.label}"
    yield AFTER_LAYING


def _count(text: str) -> int:
    """How many, as typed; BadInput where it is no number of them."""
    if not text.isdecimal() or int(text) > MOST_EGGS:
        raise BadInput(f"{quoted(text)} is no number that can be; type how many, such as 6")
    return int(text)


def _sex(writer: StepWriter, animal_id: int, value: str) -> str:
    animal = writer.book.animals[animal_id]
    changed = entering.change_animal(writer, animal, sex=value)
    return f"{animal.label} is {changed.sex}"
