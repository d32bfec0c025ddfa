"""An animal or an enclosure on one page: who it is, its kin, where it was; who lives there."""

from __future__ import annotations

from datetime import date

from warmside.core.answers.parts import Answer, Column, Fact, Kind, Part, Table
from warmside.core.asking.ask import Ask
from warmside.core.asking.pictures.sections import newest_pictures
from warmside.core.asking.subjects.bodies import body_facts
from warmside.core.record.book import Book
from warmside.core.record.entities import Animal, Enclosure
from warmside.core.record.whereabouts import Custody, Whereabouts
from warmside.core.values.basis import Basis, Estimate
from warmside.core.values.units import Unit

SHOWN_READINGS = 5


def animal_card(ask: Ask, animal: Animal) -> Answer:
    """The answer of `animal show`."""
    book = ask.book
    parts: tuple[Part, ...] = (
        *identity(book, animal, book.today),
        *body_facts(ask, animal, book.today),
        *kin(book, animal),
        places(book, animal),
        *newest_pictures(book.pictures_of(animal=animal.id)),
    )
    return Answer(animal.label, parts)


def identity(book: Book, animal: Animal, on: date) -> tuple[Fact, ...]:
    """Who the animal is, and where it is on a day."""
    where = book.whereabouts(on)[animal.id]
    place = book.enclosures.get(where.enclosure_id) if where.enclosure_id else None
    clutch = book.clutches[animal.clutch_id] if animal.clutch_id else None
    known = "" if animal.sex_known_by == "not known" else f" ({animal.sex_known_by})"
    facts = [
        Fact("code", "code", animal.code, Kind.CODE),
        Fact("name", "name", animal.name),
        Fact("species", "species", animal.species.scientific, Kind.LATIN),
        Fact("common_name", "common name", animal.species.common),
        Fact("sex", "sex", animal.sex + known),
        Fact("hatched", "hatched", animal.hatched.text if animal.hatched else None),
        age(animal, where, book.today),
        Fact("clutch", "clutch", clutch.code if clutch else None, Kind.CODE),
        Fact("origin", "origin", animal.origin or None),
        Fact("custody", "it is", where.custody.value),
        Fact("enclosure", "enclosure", place.code if place else None, Kind.CODE),
        Fact("note", "note", animal.note or None),
    ]
    return tuple(f for f in facts if f.value is not None)


def age(animal: Animal, where: Whereabouts, today: date) -> Fact:
    """The age, or that at death; a range where the date of hatching is not known to the day."""
    dead = where.custody is Custody.DEAD
    title, on = ("age at death", where.since) if dead else ("age", today)
    if animal.hatched is None or animal.hatched.earliest > on:
        return Fact("age", title, None)
    least, greatest = animal.hatched.age_days(on)
    if least == greatest:
        return Fact("age", title, least, Unit.AGE)
    basis = Basis("from the date of hatching, as far as it is known")
    return Fact("age", title, Estimate(None, least, greatest, Unit.AGE, basis), Unit.AGE)


def kin(book: Book, animal: Animal) -> tuple[Table, ...]:
    """Parents and young."""
    rows = [
        (p.role, book.animals[p.parent_id].label, p.certainty, p.weight)
        for p in book.parents.get(animal.id, ())
    ]
    rows += [
        ("young", book.animals[p.child_id].label, p.certainty, p.weight)
        for all in book.parents.values()
        for p in all
        if p.parent_id == animal.id
    ]
    weighed = any(r[-1] is not None for r in rows)
    columns = (
        Column("role", "kin"),
        Column("animal", "animal"),
        Column("certainty", "certainty"),
        Column("weight", "weight", Unit.PROBABILITY, text=weighed),
    )
    return (Table("kin", columns, tuple(rows), "Kin"),) if rows else ()


def places(book: Book, animal: Animal) -> Table:
    """Custody and placement over time, oldest first; a single stay as a sentence."""
    stretches = book.whereabouts_history(animal.id)
    several = len(stretches) > 1
    told = any(s.counterpart or s.terms for s in stretches)
    columns = (
        Column("since", "since", Kind.DATE, text=several),
        Column("custody", "it was", text=several),
        Column("enclosure", "in", Kind.CODE, text=several),
        Column("counterpart", "from or to", text=several and told),
        Column("terms", "terms", text=several and told),
    )
    rows = []
    for stretch in stretches:
        place = book.enclosures.get(stretch.enclosure_id) if stretch.enclosure_id else None
        rows.append(
            (
                stretch.since,
                stretch.custody.value,
                place.code if place else None,
                stretch.counterpart or None,
                stretch.terms or None,
            )
        )
    title = "Where it was" if several else ""
    said = "; ".join(_stay(book, s) for s in stretches) or "never kept here"
    return Table("places", columns, tuple(rows), title, said)


def _stay(book: Book, stretch: Whereabouts) -> str:
    """`here since 2026-02-13, in L1`."""
    place = book.enclosures.get(stretch.enclosure_id) if stretch.enclosure_id else None
    said = [f"{stretch.custody.value} since {stretch.since}", f"in {place.code}" if place else ""]
    other = "from" if stretch.custody.is_here else "to"
    said += [f"{other} {stretch.counterpart}" if stretch.counterpart else "", stretch.terms]
    return ", ".join(filter(None, said))


def enclosure_card(book: Book, place: Enclosure) -> Answer:
    """The answer of `enclosure show`."""
    parts: tuple[Part, ...] = (
        *enclosure_facts(book, place, book.today),
        readings(book, place),
        *newest_pictures(book.pictures_of(enclosure=place.id)),
    )
    return Answer(f"{place.name} ({place.code})", parts)


def readings(book: Book, place: Enclosure) -> Table:
    """The last readings of temperature and humidity that the keeper recorded, newest last."""
    columns = (
        Column("read", "read", Kind.DATE),
        Column("warm", "warm side", Unit.TEMPERATURE),
        Column("cool", "cool side", Unit.TEMPERATURE),
        Column("humidity", "humidity", Unit.PERCENT),
    )
    rows = tuple(
        (e.day, e.data.get("warm_c"), e.data.get("cool_c"), e.data.get("humidity_percent"))
        for e in book.events("climate", enclosure=place.id)[-SHOWN_READINGS:]
    )
    hint = f"none read by hand yet; record one: warmside record climate {place.code} --warm DEGREES"
    return Table("readings", columns, rows, "Last readings", hint)


def enclosure_facts(book: Book, place: Enclosure, on: date) -> tuple[Fact, ...]:
    """What the enclosure is, and who lives in it on a day."""
    inside = tuple(book.animals[a].label for a in book.occupants(on).get(place.id, ()))
    facts = (
        Fact("code", "code", place.code, Kind.CODE),
        Fact("name", "name", place.name),
        Fact("room", "room", place.room or None),
        *enclosure_sizes(place),
        Fact("animals", "animals", inside, Kind.LIST, missing="none"),
        Fact("retired", "retired", place.retired, Kind.YESNO),
        Fact("note", "note", place.note or None),
    )
    return tuple(f for f in facts if f.value is not None)


def enclosure_sizes(place: Enclosure) -> tuple[Fact, ...]:
    """The inner sizes that are known."""
    facts = (
        Fact("width", "inner width", place.width_mm, Unit.LENGTH),
        Fact("depth", "inner depth", place.depth_mm, Unit.LENGTH),
        Fact("height", "inner height", place.height_mm, Unit.LENGTH),
    )
    return tuple(f for f in facts if f.value is not None)
