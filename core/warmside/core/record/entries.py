"""Entering species, animals and enclosures, and changing what was entered."""

from __future__ import annotations

from typing import Any

from warmside.core.record import tables
from warmside.core.record.book import Book
from warmside.core.record.entities import (
    SEX_KNOWN_BY,
    SEX_SYSTEMS,
    SEXES,
    Animal,
    Clutch,
    Enclosure,
    Species,
    whole_sex,
)
from warmside.core.record.entry_checks import free_code, named, one_of
from warmside.core.record.kin.lineage import check_clutch, check_parent, hatched_in
from warmside.core.record.kin.parentage import put_into
from warmside.core.record.species import known as species
from warmside.core.record.steps import StepWriter
from warmside.core.values.display import Display
from warmside.core.values.errors import BadInput, Refused
from warmside.core.values.hints import plain_text
from warmside.core.values.moments import parse_typed_date


def change_display(writer: StepWriter, display: Display) -> Display:
    """Show quantities in these units from now on; raises Refused where they are so already."""
    if display == writer.book.home.display:
        raise Refused(f"units are {display.text} already")
    writer.change(tables.collection, {"id": 1}, units=display.text)
    return display


def change_dates(writer: StepWriter, order: str) -> None:
    """Read `4/1/2021` in this order from now on; raises Refused where that is so already."""
    if order == writer.book.home.dates:
        raise Refused(f"days are typed {order} already")
    writer.change(tables.collection, {"id": 1}, dates=order)


def add_species(
    writer: StepWriter, scientific: str, common: str, group: str, sex_system: str
) -> Species:
    """Add a species; raises Refused where it is known already."""
    scientific = named("a species", scientific)
    for known in writer.book.species.values():
        if known.scientific.casefold() == scientific.casefold():
            raise Refused(f"{known.scientific} is known already")
    group = one_of("group", group, species.GROUPS)
    system = one_of("sex determination", sex_system, SEX_SYSTEMS)
    common = plain_text("common name", common.strip()) or scientific
    return _insert_species(writer, Species(0, scientific, common, group, system))


def species_of(writer: StepWriter, name: str) -> Species:
    """The species of that name; one that is shipped and not yet in the collection is added."""
    mine = list(writer.book.species.values())
    have = {s.scientific.casefold() for s in mine}
    more = [
        Species(0, s.scientific, s.common, s.group, s.sex_system)
        for s in species.shipped()
        if s.scientific.casefold() not in have
    ]
    found = species.find(name, [*mine, *more])
    return found if found in mine else _insert_species(writer, found)


def _insert_species(writer: StepWriter, new: Species) -> Species:
    id = writer.insert(
        tables.species,
        scientific=new.scientific,
        common=new.common,
        group=new.group,
        sex_system=new.sex_system,
    )
    return writer.reread().species[id]


def add_animal(
    writer: StepWriter,
    name: str,
    species_name: str,
    *,
    code: str | None = None,
    sex: str = "unknown",
    sex_known_by: str = "not known",
    hatched: str = "",
    origin: str = "",
    note: str = "",
    clutch: Clutch | None = None,
) -> Animal:
    """Enter an animal; its code is suggested from the name unless one is given.

    Of a clutch it gets the parents, and the day of hatching as far as that is the same for all.
    """
    book = writer.book
    taken = {a.code: a.name for a in book.animals.values()}
    name = named("an animal", name)
    born = _hatched(hatched or (hatched_in(clutch) if clutch else ""), writer)
    id = writer.insert(
        tables.animal,
        code=free_code("animal", code, name, taken),
        name=name,
        species_id=species_of(writer, species_name).id,
        sex=one_of("sex", whole_sex(sex), SEXES),
        sex_known_by=one_of("how the sex is known", sex_known_by, SEX_KNOWN_BY),
        hatched=born,
        origin=plain_text("origin", origin),
        note=plain_text("note", note),
    )
    made = writer.reread().animals[id]
    return put_into(writer, made, clutch) if clutch else made


def _hatched(text: str, writer: StepWriter) -> str:
    if not text:
        return ""
    book = writer.book
    born = parse_typed_date(text, book.now, book.home.zone, book.home.dates)
    if born.earliest > book.today:
        raise BadInput(f"hatch date {born.text} is in the future")
    return born.text


def change_animal(writer: StepWriter, animal: Animal, **values: Any) -> Animal:
    """Change what was entered of an animal; values are named as in add_animal, None is left."""
    book = writer.book
    given = {k: v for k, v in values.items() if v is not None}
    changed: dict[str, Any] = {k: plain_text(k, given[k]) for k in ("origin", "note") if k in given}
    if "name" in given:
        changed["name"] = named("an animal", given["name"])
    if "code" in given:
        taken = {a.code: a.name for a in book.animals.values() if a.id != animal.id}
        changed["code"] = free_code("animal", given["code"], animal.name, taken)
    if "species_name" in given:
        changed["species_id"] = species_of(writer, given["species_name"]).id
    if "sex" in given:
        changed["sex"] = _new_sex(writer, animal, given["sex"])
    if "sex_known_by" in given:
        changed["sex_known_by"] = one_of(
            "how the sex is known", given["sex_known_by"], SEX_KNOWN_BY
        )
    if "hatched" in given:
        changed["hatched"] = _hatched(given["hatched"], writer)
    if not changed and "clutch" not in given:
        raise BadInput("nothing to change; name what, such as --sex female")
    if changed:
        writer.change(tables.animal, {"id": animal.id}, **changed)
    book = writer.reread()
    if "clutch" in given:
        put_into(writer, book.animals[animal.id], given["clutch"])
        book = writer.book
    if "hatched" in changed:
        _check_kin(book, animal.id)
    return book.animals[animal.id]


def _check_kin(book: Book, animal_id: int) -> None:
    """Raise BadInput where an animal and its recorded parents or young can no longer be kin."""
    for child_id, both in book.parents.items():
        for p in both:
            if animal_id in (child_id, p.parent_id):
                child, parent = book.animals[child_id], book.animals[p.parent_id]
                check_parent(child, p.role, parent, book.parents)
    for clutch in book.clutches.values():
        if animal_id in (clutch.dam_id, *(s.animal_id for s in clutch.sires)):
            check_clutch(clutch, book.animals)


def _new_sex(writer: StepWriter, animal: Animal, text: str) -> str:
    sex = one_of("sex", whole_sex(text), SEXES)
    book = writer.book
    roles = {p.role for all in book.parents.values() for p in all if p.parent_id == animal.id}
    roles |= {"dam" for c in book.clutches.values() if c.dam_id == animal.id}
    roles |= {"sire" for c in book.clutches.values() for s in c.sires if s.animal_id == animal.id}
    wrong = {"female": "sire", "male": "dam"}.get(sex)
    if wrong in roles:
        raise Refused(f"{animal.label} is recorded as a {wrong} and cannot be {sex}")
    return sex


def add_enclosure(
    writer: StepWriter,
    name: str,
    *,
    code: str | None = None,
    room: str = "",
    width_mm: float | None = None,
    depth_mm: float | None = None,
    height_mm: float | None = None,
    note: str = "",
) -> Enclosure:
    """Enter an enclosure; inner sizes in millimetres."""
    taken = {e.code: e.name for e in writer.book.enclosures.values()}
    name = named("an enclosure", name)
    id = writer.insert(
        tables.enclosure,
        code=free_code("enclosure", code, name, taken),
        name=name,
        room=plain_text("room", room.strip()),
        width_mm=width_mm,
        depth_mm=depth_mm,
        height_mm=height_mm,
        note=plain_text("note", note),
        retired=False,
    )
    return writer.reread().enclosures[id]


def change_enclosure(writer: StepWriter, enclosure: Enclosure, **values: Any) -> Enclosure:
    """Change what was entered of an enclosure; None is left. A lived-in one cannot be retired."""
    changed = {k: v for k, v in values.items() if v is not None}
    if not changed:
        raise BadInput("nothing to change; name what, such as --room kitchen")
    if "code" in changed:
        others = [e for e in writer.book.enclosures.values() if e.id != enclosure.id]
        taken = {e.code: e.name for e in others}
        changed["code"] = free_code("enclosure", changed["code"], enclosure.name, taken)
    if "name" in changed:
        changed["name"] = named("an enclosure", changed["name"])
    for what in ("room", "note"):
        if what in changed:
            changed[what] = plain_text(what, changed[what])
    inside = writer.book.occupants().get(enclosure.id)
    if changed.get("retired") and inside:
        names = ", ".join(writer.book.animals[a].label for a in inside)
        live, them = ("lives", "it") if len(inside) == 1 else ("live", "them")
        raise Refused(f"{names} {live} in {enclosure.code}; move {them} first: warmside move")
    writer.change(tables.enclosure, {"id": enclosure.id}, **changed)
    return writer.reread().enclosures[enclosure.id]
