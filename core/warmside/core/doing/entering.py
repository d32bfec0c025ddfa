"""Entering animals, enclosures and species, and changing what was entered."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from msgspec import Struct

from warmside.core.answers.parts import Answer, said
from warmside.core.asking.subjects.cards import enclosure_sizes
from warmside.core.asking.subjects.recorded import TAKE_BACK
from warmside.core.record.book import Book
from warmside.core.record.entities import Animal, Clutch, NewEvent
from warmside.core.record.entries import (
    add_animal,
    add_enclosure,
    add_species,
    change_animal,
    change_enclosure,
)
from warmside.core.record.steps import StepWriter
from warmside.core.session.session import Session
from warmside.core.values.display import Display
from warmside.core.values.errors import BadInput
from warmside.core.values.quantities import parse_quantity
from warmside.core.values.units import Unit

LARGEST_MM = 50_000.0  # a digit or a unit too much, even for a walk-in


class NewAnimal(Struct, frozen=True):
    """An animal as typed; without species it is of that of its clutch, or known already."""

    name: str
    species: str = ""
    code: str | None = None
    sex: str = "unknown"
    sex_known_by: str = "not known"
    hatched: str = ""
    origin: str = ""
    note: str = ""
    enclosure: str | None = None
    clutch: str | None = None


def add(writer: StepWriter, wanted: NewAnimal) -> Animal:
    """Enter the animal as a part of a step."""
    clutch = writer.book.clutch(wanted.clutch) if wanted.clutch else None
    return add_animal(
        writer,
        wanted.name,
        wanted.species or _species_of(writer.book, clutch),
        code=wanted.code,
        sex=wanted.sex,
        sex_known_by=wanted.sex_known_by,
        hatched=wanted.hatched,
        origin=wanted.origin,
        note=wanted.note,
        clutch=clutch,
    )


def _species_of(book: Book, clutch: Clutch | None) -> str:
    if clutch is None or clutch.dam_id is None:
        raise BadInput("name the species: --species NAME")
    return book.animals[clutch.dam_id].species.scientific


def enter_animal(
    session: Session,
    wanted: NewAnimal,
    *,
    since: str | None = None,
    ancestor: bool = False,
    confirmed: bool = False,
) -> Answer:
    """Enter an animal that is here already, or one that is only an ancestor."""
    with session.step(f"entered {wanted.name}", confirmed=confirmed) as writer:
        made = add(writer, wanted)
        place = writer.book.enclosure(wanted.enclosure) if wanted.enclosure else None
        if not ancestor:
            day, note = _kept_since(session, since, writer.book)
            data = {"source": wanted.origin}
            where_to = place.id if place else None
            writer.record(NewEvent("kept", day, data, made.id, where_to, note=note))
    where = f" in {place.code}" if place else ""
    kept = " as an ancestor" if ancestor else where
    return said(
        f"entered {made.name}, {made.species.scientific}, as {made.code}{kept}", hints=[TAKE_BACK]
    )


def _kept_since(session: Session, since: str | None, book: Book) -> tuple[date, str]:
    """The first day that it can have been here, and a note where the day is not known."""
    if not since:
        return book.today, ""
    known = session.typed_date(since, book)
    return known.earliest, "" if known.day else f"since some day of {known}"


def alter_animal(session: Session, animal: str, values: Mapping[str, Any]) -> Answer:
    """Change what was entered of an animal; a value of None is left as it is."""
    with session.step(f"changed {animal}") as writer:
        clutch = values.get("clutch")
        found = writer.book.clutch(clutch) if clutch else None
        new = change_animal(writer, writer.book.animal(animal), **{**values, "clutch": found})
        writer.say(f"changed {new.label}")
    return said(
        f"changed {new.label}: {new.species.scientific}, {new.sex_sign} {new.sex}",
        hints=[TAKE_BACK],
    )


def enter_enclosure(
    session: Session, name: str, sizes: Mapping[str, str | None], values: Mapping[str, Any]
) -> Answer:
    """Enter an enclosure; inner sizes `width`, `depth` and `height` as typed."""
    with session.step(f"entered enclosure {name}") as writer:
        entered = {**values, **_parsed(sizes, writer.book.home.display)}
        made = add_enclosure(writer, name, **entered)
    where = f" in {made.room}" if made.room else ""
    words = f"entered enclosure {made.name} as {made.code}{where}"
    return said(words, *enclosure_sizes(made), hints=[TAKE_BACK])


def _parsed(sizes: Mapping[str, str | None], display: Display) -> dict[str, float | None]:
    """Inner sizes in millimetres; a number without a unit is as the collection shows it."""
    return {f"{what}_mm": _size(what, text, display) for what, text in sizes.items()}


def _size(what: str, text: str | None, display: Display) -> float | None:
    if text is None:
        return None
    size = parse_quantity(text, Unit.LENGTH, display=display, what=what)
    if not 0 < size <= LARGEST_MM:
        raise BadInput(f"{what} {text} is no inner size; check the number and its unit")
    return size


def alter_enclosure(
    session: Session, enclosure: str, sizes: Mapping[str, str | None], values: Mapping[str, Any]
) -> Answer:
    """Change what was entered of an enclosure; a value of None is left as it is."""
    with session.step(f"changed enclosure {enclosure}") as writer:
        new = {**values, **_parsed(sizes, writer.book.home.display)}
        changed = change_enclosure(writer, writer.book.enclosure(enclosure), **new)
        writer.say(f"changed enclosure {changed.code}")
    state = ", retired" if changed.retired else ""
    words = f"changed enclosure {changed.name} ({changed.code}){state}"
    return said(words, *enclosure_sizes(changed), hints=[TAKE_BACK])


def enter_species(
    session: Session, scientific: str, common: str, group: str, sex_system: str
) -> Answer:
    """Add a species to those that animals can be of."""
    with session.step(f"added species {scientific}") as writer:
        made = add_species(writer, scientific, common, group, sex_system)
    return said(f"added species {made.scientific} ({made.common}, {made.group})", hints=[TAKE_BACK])
