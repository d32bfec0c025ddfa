"""Recording events for one or many subjects, shared by all commands that do."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from warmside.core.answers import Answer, Column, Kind, Table, Tone, words
from warmside.core.book import Book
from warmside.core.kinds import EventKind
from warmside.core.moments import When
from warmside.core.record import Event, NewEvent
from warmside.core.session import Session
from warmside.core.steps import StepWriter
from warmside.core.telling import event_words, subject_words, when_words

EVENT_COLUMNS = (
    Column("event", "event", Kind.CODE),
    Column("when", "when"),
    Column("subject", "subject"),
    Column("what", "what happened"),
)


def new_event(
    kind: EventKind,
    typed: Mapping[str, str],
    when: When,
    *,
    animal_id: int | None = None,
    enclosure_id: int | None = None,
    note: str = "",
) -> NewEvent:
    """An event from typed fields."""
    return NewEvent(kind.name, when.day, kind.parse(typed), animal_id, enclosure_id, when.at, note)


def record_for_animals(
    session: Session,
    writer: StepWriter,
    kind_name: str,
    names: Iterable[str],
    typed: Mapping[str, str | None],
    at: str | None,
    note: str = "",
    enclosure: str | None = None,
) -> list[Event]:
    """Record one event of a kind for each named animal; empty fields are left to their defaults."""
    book = writer.book
    kind = book.host.kind(kind_name)
    given = {k: v for k, v in typed.items() if v is not None}
    place = book.enclosure(enclosure).id if enclosure else None
    when = session.when(at, book)
    made = [
        writer.record(
            new_event(
                kind,
                given,
                when,
                animal_id=book.animal(name).id,
                enclosure_id=place,
                note=note,
            )
        )
        for name in names
    ]
    writer.say("; ".join(step_words(writer.book, made)))
    return made


def step_words(book: Book, events: Iterable[Event]) -> list[str]:
    """What a step did, in the keeper's words, for undo's preview."""
    listed = list(events)
    told = [f"{subject_words(book, e)}: {event_words(book, e)}" for e in listed[:3]]
    return told + ([f"and {len(listed) - 3} more"] if len(listed) > 3 else [])


def event_row(book: Book, event: Event) -> tuple[str, str, str, str]:
    """The event as a row of EVENT_COLUMNS."""
    return (
        str(event.id),
        when_words(book, event),
        subject_words(book, event),
        event_words(book, event),
    )


def recorded(session: Session, events: Iterable[Event]) -> Answer:
    """The answer of a command that recorded events, also those that plugins added."""
    with session.read() as book:
        rows = tuple(event_row(book, e) for e in events)
    table = Table("recorded", EVENT_COLUMNS, rows, "Recorded")
    return Answer(parts=(table, *words("warmside undo (take it back)", tone=Tone.HINT)))
