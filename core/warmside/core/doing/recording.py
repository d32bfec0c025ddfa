"""Recording events of one kind, for one or many animals or enclosures at once."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from msgspec import Struct, field

from warmside.core.answers.parts import Answer
from warmside.core.asking.ask import Ask
from warmside.core.asking.subjects.recorded import recorded
from warmside.core.asking.telling import step_words
from warmside.core.kinds.kind import EventKind, Subject
from warmside.core.kinds.validating import Data
from warmside.core.record.book import Book
from warmside.core.record.entities import Event, NewEvent
from warmside.core.record.references import readers
from warmside.core.record.steps import StepWriter
from warmside.core.record.typed_subjects import (
    Typed,
    animals_meant,
    lived_in_meant,
    typed_subjects,
)
from warmside.core.session.session import Session
from warmside.core.values.errors import BadInput
from warmside.core.values.moments import When


class Recording(Struct, frozen=True):
    """One event of a kind for each subject, with the fields as typed.

    A subject may carry a value of its own for the kind's own field, as `EMB=412g`. `enclosure`
    is where animals are put, for kinds that put them somewhere.
    """

    kind: str
    subjects: tuple[str, ...] = ()
    fields: Mapping[str, str] = field(default_factory=dict)
    everyone: bool = False
    room: str | None = None
    enclosure: str | None = None
    at: str | None = None
    note: str = ""
    confirmed: bool = False


def record(session: Session, wanted: Recording) -> Answer:
    """Record the events in one step."""
    title = session.open().host.kinds.named(wanted.kind).title
    with session.step(title, confirmed=wanted.confirmed) as writer:
        record_in(session, writer, wanted)
    return answered(session, writer)


def record_in(session: Session, writer: StepWriter, wanted: Recording) -> list[Event]:
    """Record the events as a part of a step, which they give its words."""
    ask = session.asking(writer.book)
    when = session.when(wanted.at, writer.book)
    made = [writer.record(e) for e in typed_events(ask, wanted, when)]
    writer.say("; ".join(step_words(ask, made)))
    return made


def answered(session: Session, writer: StepWriter) -> Answer:
    """What the step recorded, with what plugins added to it."""
    with session.ask() as ask:
        return recorded(ask, writer.recorded)


def typed_events(ask: Ask, wanted: Recording, when: When) -> list[NewEvent]:
    """An event for each subject that is meant."""
    kind, book = ask.kind(wanted.kind), ask.book
    subjects = typed_subjects(wanted.subjects)
    meant = lived_in_meant if kind.subject is Subject.ENCLOSURE else animals_meant
    values = _own_values(kind, book, subjects, meant, when)
    names = [s.name for s in subjects]
    ids = meant(book, names, everyone=wanted.everyone, room=wanted.room, on=when.day)
    place = book.enclosure(wanted.enclosure).id if wanted.enclosure else None
    made = []
    for id in ids:
        fields = dict(wanted.fields)
        if id in values:
            fields[kind.own.name] = values[id]
        data = kind.parse(fields, readers(book))
        made.append(_event(kind, wanted, when, data, id, place))
    return made


def _own_values(
    kind: EventKind, book: Book, subjects: list[Typed], meant: Callable[..., list[int]], when: When
) -> dict[int, str]:
    """The value typed behind each subject, by its id."""
    typed = [s for s in subjects if s.value]
    if typed and not kind.fields:
        raise BadInput(f"{kind.name} takes no value")
    return {
        meant(book, [s.name], everyone=False, room=None, on=when.day)[0]: s.value for s in typed
    }


def _event(
    kind: EventKind, wanted: Recording, when: When, data: Data, id: int, place: int | None
) -> NewEvent:
    of_enclosure = kind.subject is Subject.ENCLOSURE
    return NewEvent(
        kind.name,
        when.day,
        data,
        None if of_enclosure else id,
        id if of_enclosure else place,
        when.at,
        wanted.note,
    )
