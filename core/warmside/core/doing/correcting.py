"""Replacing an event: only what is typed changes, the old one stays visible as corrected."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct

from warmside.core.answers.parts import Answer
from warmside.core.asking.ask import Ask
from warmside.core.asking.telling import told
from warmside.core.doing.recording import answered
from warmside.core.kinds.kind import EventKind, Subject
from warmside.core.kinds.parsing import Readers, parse_field
from warmside.core.record.book import Book
from warmside.core.record.entities import Event, NewEvent
from warmside.core.record.references import readers
from warmside.core.record.typed_subjects import enclosure_of
from warmside.core.session.session import Session
from warmside.core.values.errors import BadInput
from warmside.core.values.moments import When


class Correction(Struct, frozen=True):
    """What is right about an event, as `mass=412g`; None is left as it was."""

    event: int
    fields: tuple[str, ...] = ()
    at: str | None = None
    subject: str | None = None
    note: str | None = None
    confirmed: bool = False


def correct(session: Session, wanted: Correction) -> Answer:
    """Record what is right in the place of the old event."""
    words = f"corrected event {wanted.event}"
    with session.step(words, confirmed=wanted.confirmed) as writer:
        ask = session.asking(writer.book)
        old = ask.book.event(wanted.event)
        when = session.when(wanted.at, ask.book) if wanted.at else When(old.day, old.at)
        made = writer.correct(old, _corrected(ask, old, wanted, when))
        writer.say(f"{words}: {told(ask, old)}; now: {told(ask, made)}")
    return answered(session, writer)


def _corrected(ask: Ask, old: Event, wanted: Correction, when: When) -> NewEvent:
    """The event as it should have been."""
    book, kind = ask.book, ask.kind(old.kind)
    data = dict(old.data) | _typed(kind, wanted.fields, readers(book))
    animal_id, enclosure_id = old.animal_id, old.enclosure_id
    if wanted.subject is not None and kind.subject is Subject.ENCLOSURE:
        enclosure_id = enclosure_of(book, wanted.subject, when.day)
    elif wanted.subject is not None:
        animal_id, enclosure_id = _animal_or_place(book, kind, wanted.subject, old)
    note = old.note if wanted.note is None else wanted.note
    new = NewEvent(old.kind, when.day, data, animal_id, enclosure_id, when.at, note)
    if _content(old) == _content(new):
        raise BadInput(f"event {old.id} is so already; type what is right, such as mass=412g")
    return new


def _animal_or_place(
    book: Book, kind: EventKind, subject: str, old: Event
) -> tuple[int | None, int | None]:
    names = {n.casefold() for e in book.enclosures.values() for n in (e.code, e.name)}
    if kind.subject is Subject.PLACING and subject.casefold() in names:
        return old.animal_id, book.enclosure(subject).id
    return book.animal(subject).id, old.enclosure_id


def _typed(kind: EventKind, fields: Iterable[str], readers: Readers) -> dict[str, object]:
    """The fields typed as name=value, parsed as their kind declares."""
    given: dict[str, object] = {}
    for field in fields:
        name, found, text = field.partition("=")
        if not found:
            raise BadInput(f"type what is right as field=value, such as mass=412g, not {field!r}")
        spec = kind.field(name)
        given[spec.name] = parse_field(spec, text, readers)
    return given


def _content(event: Event | NewEvent) -> tuple[object, ...]:
    return (
        event.day,
        event.at,
        dict(event.data),
        event.animal_id,
        event.enclosure_id,
        event.note,
    )
