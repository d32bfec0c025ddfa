"""Animals that come, come back, go for a while, go for good, or move."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from msgspec import Struct, field
from msgspec.structs import replace

from warmside.core.answers.parts import Answer
from warmside.core.doing.entering import NewAnimal, add
from warmside.core.doing.recording import Recording, answered, record_in
from warmside.core.record.book import Book
from warmside.core.record.entities import Animal
from warmside.core.record.steps import StepWriter
from warmside.core.session.session import Session
from warmside.core.values.errors import BadInput, NotFound, Refused
from warmside.core.values.moments import parse_typed_date


class Arrival(Struct, frozen=True):
    """A newcomer that is entered now, or a known animal (then without species)."""

    animal: NewAnimal
    fields: Mapping[str, str] = field(default_factory=dict)
    at: str | None = None
    note: str = ""
    confirmed: bool = False


def arrive(session: Session, wanted: Arrival) -> Answer:
    """Enter the animal, if it is new, and record its arrival."""
    entered = wanted.animal
    with session.step(f"{entered.name} arrived", confirmed=wanted.confirmed) as writer:
        if entered.species or entered.clutch:
            arriving = add(writer, entered)
        else:
            arriving = _known_newcomer(writer, entered.name)
        recording = Recording(
            "arrived",
            (arriving.code,),
            wanted.fields,
            enclosure=entered.enclosure,
            at=wanted.at,
            note=wanted.note,
        )
        record_in(session, writer, recording)
    return answered(session, writer)


def _known_newcomer(writer: StepWriter, name: str) -> Animal:
    """The animal of that name that is known but not here."""
    try:
        animal = writer.book.animal(name)
    except NotFound:
        raise BadInput(f"{name!r} is not known yet; add --species to enter it") from None
    if writer.book.whereabouts()[animal.id].custody.is_here:
        raise Refused(f"{animal.label} is here already; to move it: warmside move")
    return animal


def come_or_go(session: Session, wanted: Recording) -> Answer:
    """Record that animals came back, were lent, departed or moved; names what is odd about it."""
    with session.step(wanted.kind, confirmed=wanted.confirmed) as writer:
        record_in(session, writer, wanted)
        book = writer.reread()
        warnings = _company(book, wanted.enclosure) if wanted.kind == "moved" else ()
    return replace(answered(session, writer), warnings=warnings)


def lend_out(session: Session, wanted: Recording, until: str) -> Answer:
    """Record that animals were lent, until a day, or a month or year where that was agreed."""
    if until:
        with session.read() as book:
            begins = session.when(wanted.at, book).day
            fields = {**wanted.fields, **_agreed(session, book, until, begins)}
        wanted = replace(wanted, fields=fields)
    return come_or_go(session, wanted)


def _agreed(session: Session, book: Book, until: str, begins: date) -> dict[str, str]:
    """The field for the agreed return; raises BadInput for one before the loan begins."""
    home = book.home
    agreed = parse_typed_date(until, session.now, home.zone, home.dates)
    if agreed.latest < begins:
        raise BadInput(f"--until {agreed.text} is before the loan begins, {begins}")
    return {"until" if agreed.day else "until_words": agreed.text}


def _company(book: Book, enclosure: str | None) -> tuple[str, ...]:
    """A message where animals now share the enclosure; allowed, but never unseen."""
    if not enclosure:
        return ()
    place = book.enclosure(enclosure)
    inside = book.occupants().get(place.id, ())
    if len(inside) < 2:
        return ()
    names = ", ".join(book.animals[a].label for a in inside)
    return (f"{len(inside)} animals are in {place.code} now: {names}",)
