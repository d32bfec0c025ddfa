"""Entering many animals and their parents in one go.

Entering them one by one reads the collection anew for each. Whoever calls this has looked for loops
among the new ones; each parent is checked against its child all the same.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

from msgspec import Struct

from warmside.core.record import tables
from warmside.core.record.entities import SEX_KNOWN_BY, SEXES, Animal, whole_sex
from warmside.core.record.entries import species_of
from warmside.core.record.entry_checks import free_code, named, one_of
from warmside.core.record.kin.lineage import check_parent
from warmside.core.record.steps import StepWriter
from warmside.core.values import codes
from warmside.core.values.errors import BadInput
from warmside.core.values.hints import plain_text
from warmside.core.values.partial_dates import PartialDate, parse_partial_date


class Newcomer(Struct, frozen=True):
    """An animal to be entered; without a code one is suggested from its name."""

    name: str
    species: str
    code: str | None = None
    sex: str = "unknown"
    hatched: PartialDate | None = None
    note: str = ""
    sex_known_by: str = SEX_KNOWN_BY[0]
    origin: str = ""


class Link(NamedTuple):
    """That one animal is the dam or sire of another, by their ids."""

    child_id: int
    role: str
    parent_id: int


def code_of(text: str) -> str | None:
    """The code that a text can be, in capitals; None where it cannot be one."""
    try:
        return codes.checked(text)
    except BadInput:
        return None


def name_of(text: str) -> str:
    """The name without outer blanks; BadInput where no animal can be called so."""
    return named("an animal", text)


def sex_of(text: str) -> str:
    """`female`, `male` or `unknown`, of which the letter or nothing may be typed; else BadInput."""
    return one_of("sex", whole_sex(text or "unknown"), SEXES)


def hatched_of(text: str) -> PartialDate | None:
    """A date of hatching, as far as it is known; None where nothing is typed, else BadInput."""
    return parse_partial_date(text) if text else None


def _silent() -> None:
    """What is called for each thing done where nobody watches."""


def enter(
    writer: StepWriter, newcomers: Iterable[Newcomer], done: Callable[[], None] = _silent
) -> list[int]:
    """Enter animals that were never here; their ids, in their order. `done` is called for each."""
    new_ones = list(newcomers)
    species: dict[str, int] = {}
    made = []
    for new, code in zip(new_ones, _codes(writer, new_ones), strict=True):
        if new.species not in species:
            species[new.species] = species_of(writer, new.species).id
        made.append(
            writer.insert(
                tables.animal,
                code=code,
                name=new.name,
                species_id=species[new.species],
                sex=new.sex,
                sex_known_by=new.sex_known_by,
                hatched=new.hatched.text if new.hatched else "",
                origin=plain_text("origin", new.origin),
                note=plain_text("note", new.note),
            )
        )
        done()
    writer.reread()
    return made


def _codes(writer: StepWriter, newcomers: Sequence[Newcomer]) -> list[str]:
    """A code for each: those that were asked for before those that are suggested."""
    taken = {a.code: a.name for a in writer.book.animals.values()}
    found: dict[int, str] = {}
    for number in sorted(range(len(newcomers)), key=lambda n: not newcomers[n].code):
        new = newcomers[number]
        found[number] = free_code("animal", new.code, new.name, taken)
        taken[found[number]] = new.name
    return [found[number] for number in range(len(newcomers))]


def fill(writer: StepWriter, animal: Animal, sex: str | None, hatched: PartialDate | None) -> None:
    """Say of an animal on record what was not known; None is left as it is."""
    values = {"sex": sex, "hatched": hatched.text if hatched else None}
    writer.change(tables.animal, {"id": animal.id}, **{k: v for k, v in values.items() if v})


def link(writer: StepWriter, links: Iterable[Link], done: Callable[[], None] = _silent) -> None:
    """Record certain parents; BadInput where one cannot be. `done` is called for each."""
    book = writer.reread()
    for child_id, role, parent_id in links:
        check_parent(book.animals[child_id], role, book.animals[parent_id], book.parents)
        writer.insert(
            tables.parentage,
            child_id=child_id,
            role=role,
            parent_id=parent_id,
            certainty="certain",
            weight=None,
        )
        done()
    writer.reread()
